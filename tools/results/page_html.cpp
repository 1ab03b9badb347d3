// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/page_html.h"

#include <stdexcept>

namespace crossgrain {
namespace {

// The template's bytes, taken into the program as they are.
asm(R"(
  .section .rodata
  .global crossgrain_page_template, crossgrain_page_template_end
crossgrain_page_template:
  .incbin ")" CROSSGRAIN_PAGE_TEMPLATE R"("
crossgrain_page_template_end:
  .previous
)");
extern "C" const char crossgrain_page_template[];
extern "C" const char crossgrain_page_template_end[];

constexpr std::string_view place_for_data = "<!--data-->";

std::string_view page_template() {
  return {crossgrain_page_template,
          static_cast<std::size_t>(crossgrain_page_template_end - crossgrain_page_template)};
}

void add_block(std::string& out, const std::string& id, const char* type, std::string_view text) {
  out += "<script type=\"";
  out += type;
  out += "\" id=\"" + id + "\">";
  out += text;
  out += "</script>\n";
}

}  // namespace

std::string json_for_html(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  for (const char c : json) {
    if (c == '<')
      out += "\\u003c";
    else if (c == '&')
      out += "\\u0026";
    else
      out += c;
  }
  return out;
}

std::string page_html(std::string_view kind, const std::vector<PageDocument>& documents,
                      const std::vector<PackedArray>& arrays) {
  const std::string_view page = page_template();
  const std::size_t place = page.find(place_for_data);
  if (place == std::string_view::npos)
    throw std::runtime_error(
        "the page's template has no place for data: this is a mistake of the program");
  std::string out(page.substr(0, place));
  add_block(out, "kind", "text/plain", kind);
  for (const PageDocument& document : documents)
    add_block(out, document.name, "application/json", json_for_html(document.json));
  for (const PackedArray& array : arrays)
    add_block(out, "array." + array.name, "text/plain", array.base64);
  out += page.substr(place + place_for_data.size());
  return out;
}

}  // namespace crossgrain
