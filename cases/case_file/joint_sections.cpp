// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_sections.h"
#include "cases/case_file/face_choice_reader.h"
#include "cases/joint/rubber_modulus.h"

namespace crossgrain {
namespace {

/// The gasket's modulus, given or by its hardness.
double read_gasket_modulus(const CaseTable& table, const std::optional<double>& hardness) {
  const auto given = table.optional_quantity("modulus");
  if (given && hardness) {
    table.refuse("hardness", "goes where the modulus is not known; leave one of the two out");
  }
  if (given) return *given;
  if (!hardness) {
    table.refuse_table(
        "how soft is it? give hardness = 60 (Shore A), or modulus = \"4 MPa\" of its material");
    return 1.0;
  }
  try {
    return modulus_by_hardness(*hardness).value;
  } catch (const std::invalid_argument& error) {
    table.refuse("hardness", error.what());
    return 1.0;
  }
}

double needed_length(const CaseTable& table, std::string_view key) {
  const auto given = table.optional_quantity(key);
  if (!given) {
    table.refuse_table("with mate it also needs " + std::string(key) + " = \"2 mm\"");
  }
  return given.value_or(1.0);
}

GasketSpec::Between read_between(const CaseTable& table) {
  GasketSpec::Between between;
  between.mate = required_faces(table, "mate");
  between.shape.form = table.text("form") == "disc" ? GasketForm::disc : GasketForm::strip;
  between.shape.faces = table.yes_no("bonded") ? GasketFaces::held : GasketFaces::slipping;
  between.shape.width = needed_length(table, "width");
  between.shape.thickness = needed_length(table, "thickness");
  between.hardness = table.optional_number("hardness");
  between.modulus = read_gasket_modulus(table, between.hardness);
  between.stop_squeeze = table.optional_quantity("stop_squeeze");
  if (between.stop_squeeze && *between.stop_squeeze >= between.shape.thickness) {
    table.refuse("stop_squeeze",
                 "not less than the thickness; give how far it is squeezed when the stop is met");
  }
  between.clearance = table.quantity("clearance");
  between.expansion = table.quantity("expansion");
  between.seating = table.optional_quantity("seating_pressure");
  between.contact_ratio = table.optional_number("m");
  between.seating_squeeze = table.optional_quantity("seating_squeeze");
  between.seal_margin = table.quantity("seal_margin");
  return between;
}

constexpr const char* keys_with_mate[] = {
    "thickness",        "hardness",        "modulus",    "form",      "width",
    "bonded",           "stop_squeeze",    "clearance",  "expansion", "m",
    "seating_pressure", "seating_squeeze", "seal_margin"};

}  // namespace

ContactSpec read_contact(const CaseTable& table) {
  ContactSpec contact;
  contact.place = table.place();
  contact.name = table.text("name");
  contact.faces = required_faces(table, "faces");
  contact.mate = required_faces(table, "mate");
  contact.kind = table.text("kind") == "tied" ? ContactKind::tied : ContactKind::unilateral;
  contact.clearance = table.quantity("clearance");
  if (contact.kind == ContactKind::tied && contact.clearance != 0.0) {
    table.refuse("clearance",
                 "goes with kind = \"unilateral\"; tied faces move as one from where "
                 "they are");
  }
  return contact;
}

GasketSpec read_gasket(const CaseTable& table) {
  GasketSpec gasket;
  gasket.place = table.place();
  gasket.name = table.text("name");
  gasket.faces = required_faces(table, "faces");
  gasket.bolts = table.text("bolts");
  gasket.pressure = table.text("pressure");
  if (table.has("mate")) {
    gasket.between = read_between(table);
    return gasket;
  }
  for (const char* key : keys_with_mate) {
    if (table.has(key)) {
      table.refuse(key, "goes with mate, the other body's faces; add that, or leave this out");
    }
  }
  return gasket;
}

}  // namespace crossgrain
