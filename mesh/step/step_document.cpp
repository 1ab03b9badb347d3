// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/step_document.h"

#include <BRepBuilderAPI_Transform.hxx>
#include <BRep_Builder.hxx>
#include <IFSelect_ReturnStatus.hxx>
#include <Interface_InterfaceModel.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_Printer.hxx>
#include <NCollection_DataMap.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <Standard_Failure.hxx>
#include <StepRepr_RepresentationItem.hxx>
#include <StepShape_FaceSurface.hxx>
#include <StepShape_SolidModel.hxx>
#include <TColStd_SequenceOfAsciiString.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TDF_LabelSequence.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_MapOfShape.hxx>
#include <TopTools_ShapeMapHasher.hxx>
#include <TopoDS.hxx>
#include <TransferBRep.hxx>
#include <Transfer_TransientProcess.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XSControl_TransferReader.hxx>
#include <XSControl_WorkSession.hxx>
#include <algorithm>
#include <cctype>
#include <cmath>
#include <stdexcept>

#include "mesh/step/step_file.h"

namespace crossgrain {
namespace {

/// Writers fill names they do not have.
std::string without_filler(const std::string& name) {
  const bool filler = name == "NONE" || name == "SOLID" || name == "COMPOUND" || name == "''" ||
                      name.rfind("Open CASCADE STEP translator", 0) == 0;
  return filler ? std::string() : name;
}

std::string name_of(const TDF_Label& label) {
  Handle(TDataStd_Name) name;
  if (!label.FindAttribute(TDataStd_Name::GetID(), name)) {
    return {};
  }
  std::string text(static_cast<std::size_t>(name->Get().LengthOfCString()), '\0');
  Standard_PCharacter begin = text.data();
  name->Get().ToUTF8CString(begin);
  return without_filler(text);
}

std::optional<Colour> colour_of(const TDF_Label& label) {
  for (const auto type : {XCAFDoc_ColorSurf, XCAFDoc_ColorGen}) {
    TDF_Label entry;
    Quantity_Color colour;
    if (XCAFDoc_ColorTool::GetColor(label, type, entry) &&
        XCAFDoc_DocumentTool::ColorTool(label)->GetColor(entry, colour)) {
      Colour rgb;
      colour.Values(rgb[0], rgb[1], rgb[2], Quantity_TOC_sRGB);
      return rgb;
    }
  }
  return std::nullopt;
}

Label first_of(const Label& preferred, const Label& otherwise) {
  return {preferred.name.empty() ? otherwise.name : preferred.name,
          preferred.colour ? preferred.colour : otherwise.colour};
}

/// By shapes as translated, before assembly moved them.
using NameOfShape = NCollection_DataMap<TopoDS_Shape, std::string, TopTools_ShapeMapHasher>;

/// What the STEP entities say of the shapes they became.
struct EntityNotes {
  NameOfShape names;                ///< each entity's first attribute
  TopTools_MapOfShape open_solids;  ///< shells: all that the kernel leaves of a solid with a gap
};

EntityNotes notes_of_entities(const Handle(XSControl_WorkSession) & session) {
  EntityNotes notes;
  const Handle(Transfer_TransientProcess) process = session->TransferReader()->TransientProcess();
  const Handle(Interface_InterfaceModel) model = session->Model();
  for (int i = 1; i <= model->NbEntities(); ++i) {
    const Handle(StepRepr_RepresentationItem) item =
        Handle(StepRepr_RepresentationItem)::DownCast(model->Value(i));
    const bool solid = !item.IsNull() && item->IsKind(STANDARD_TYPE(StepShape_SolidModel));
    const bool face = !item.IsNull() && item->IsKind(STANDARD_TYPE(StepShape_FaceSurface));
    const TopoDS_Shape result =
        solid || face ? TransferBRep::ShapeResult(process, item) : TopoDS_Shape();
    if (result.IsNull()) {
      continue;
    }
    const TopoDS_Shape shape = result.Located(TopLoc_Location());
    if (!item->Name().IsNull() && !item->Name()->IsEmpty()) {
      notes.names.Bind(shape, without_filler(item->Name()->ToCString()));
    }
    if (solid && shape.ShapeType() == TopAbs_SHELL) {
      notes.open_solids.Add(shape);
    }
  }
  return notes;
}

TopoDS_Solid solid_from(const TopoDS_Shape& solid_or_shell) {
  if (solid_or_shell.ShapeType() == TopAbs_SOLID) {
    return TopoDS::Solid(solid_or_shell);
  }
  TopoDS_Solid solid;
  BRep_Builder builder;
  builder.MakeSolid(solid);
  builder.Add(solid, solid_or_shell);
  return solid;
}

/// Walks the product structure and collects the solids in their places.
class Collector {
 public:
  Collector(const EntityNotes& notes, StepDocument& document)
      : notes_(notes), document_(document) {}

  /// @param outer what the assembly above says of this component: its colour wins over the part's.
  void visit(const TDF_Label& label, const TopLoc_Location& place, const Label& outer) {
    TDF_Label part = label;
    TopLoc_Location here = place;
    Label said = {{}, outer.colour};
    if (XCAFDoc_ShapeTool::IsReference(label)) {
      XCAFDoc_ShapeTool::GetReferredShape(label, part);
      here = place * XCAFDoc_ShapeTool::GetLocation(label);
      said = first_of({{}, colour_of(label)}, said);
    }
    said.name = name_of(part);
    said.colour = said.colour ? said.colour : colour_of(part);
    if (XCAFDoc_ShapeTool::IsAssembly(part)) {
      TDF_LabelSequence components;
      XCAFDoc_ShapeTool::GetComponents(part, components);
      for (const TDF_Label& component : components) {
        visit(component, here, said);
      }
    } else {
      add_part(part, here, said);
    }
  }

 private:
  using LabelOfShape = NCollection_DataMap<TopoDS_Shape, Label, TopTools_ShapeMapHasher>;

  void add_part(const TDF_Label& part, const TopLoc_Location& place, const Label& said) {
    const TopoDS_Shape shape = XCAFDoc_ShapeTool::GetShape(part);
    if (shape.IsNull()) {
      return;
    }
    LabelOfShape styled;
    TDF_LabelSequence sub_labels;
    XCAFDoc_ShapeTool::GetSubShapes(part, sub_labels);
    for (const TDF_Label& sub : sub_labels) {
      styled.Bind(XCAFDoc_ShapeTool::GetShape(sub), {name_of(sub), colour_of(sub)});
    }
    const TopTools_IndexedMapOfShape solids = solids_of(shape);
    TopTools_IndexedMapOfShape owned;
    for (int i = 1; i <= solids.Extent(); ++i) {
      add_solid(solids(i), place, said, styled, solids.Extent() > 1);
      TopExp::MapShapes(solids(i), TopAbs_FACE, owned);
    }
    for (TopExp_Explorer at(shape, TopAbs_FACE, TopAbs_SOLID); at.More(); at.Next()) {
      if (owned.Contains(at.Current())) {
        continue;
      }
      const Label label = first_of(label_of(at.Current(), styled), {{}, said.colour});
      document_.strays.push_back({at.Current().Moved(place), label});
    }
    for (TopExp_Explorer at(shape, TopAbs_EDGE, TopAbs_FACE); at.More(); at.Next()) {
      document_.strays.push_back({at.Current().Moved(place), {}});
    }
  }

  /// The solids, and the shells that were meant for solids: a check to come says where they gape.
  TopTools_IndexedMapOfShape solids_of(const TopoDS_Shape& shape) const {
    TopTools_IndexedMapOfShape solids;
    TopExp::MapShapes(shape, TopAbs_SOLID, solids);
    for (TopExp_Explorer at(shape, TopAbs_SHELL, TopAbs_SOLID); at.More(); at.Next()) {
      if (notes_.open_solids.Contains(at.Current().Located(TopLoc_Location()))) {
        solids.Add(at.Current());
      }
    }
    return solids;
  }

  /// @param one_of_many the part's name does not tell its solids apart, so their own comes first.
  void add_solid(const TopoDS_Shape& solid, const TopLoc_Location& place, const Label& part,
                 const LabelOfShape& styled, bool one_of_many) {
    const Label own = label_of(solid, styled);
    LabelledSolid labelled;
    labelled.solid = solid_from(solid.Moved(place));
    labelled.label = first_of({one_of_many ? own.name : std::string(), own.colour}, part);
    if (labelled.label.name.empty()) {
      labelled.label.name = own.name;
    }
    TopTools_IndexedMapOfShape faces;
    for (TopExp_Explorer at(solid, TopAbs_FACE); at.More(); at.Next()) {
      faces.Add(at.Current());
    }
    for (int i = 1; i <= faces.Extent(); ++i) {
      labelled.faces.push_back(first_of(label_of(faces(i), styled), {{}, labelled.label.colour}));
    }
    document_.solids.push_back(std::move(labelled));
  }

  Label label_of(const TopoDS_Shape& shape, const LabelOfShape& styled) const {
    const Label* style = styled.Seek(shape);
    const std::string* name = notes_.names.Seek(shape.Located(TopLoc_Location()));
    return first_of(style ? *style : Label(), {name ? *name : std::string(), std::nullopt});
  }

  const EntityNotes& notes_;
  StepDocument& document_;
};

std::string unit_of(STEPCAFControl_Reader& reader) {
  TColStd_SequenceOfAsciiString lengths, angles, solid_angles;
  reader.ChangeReader().FileUnits(lengths, angles, solid_angles);
  std::string units;
  for (const TCollection_AsciiString& length : lengths) {
    std::string name = length.ToCString();
    std::transform(name.begin(), name.end(), name.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (units.find(name) == std::string::npos) {
      units += (units.empty() ? "" : ", ") + name;
    }
  }
  return units;
}

/// The reader's own length unit does not reach what it hands to a document, so the shapes are
/// transformed; their tolerances grow with them.
void scale_lengths(StepDocument& document, double scale) {
  gp_Trsf transformation;
  transformation.SetScale(gp_Pnt(), scale);
  const auto scaled = [&](const TopoDS_Shape& shape) {
    return BRepBuilderAPI_Transform(shape, transformation, true).Shape();
  };
  for (LabelledSolid& body : document.solids) {
    body.solid = TopoDS::Solid(scaled(body.solid));
  }
  for (Stray& stray : document.strays) {
    stray.shape = scaled(stray.shape);
  }
}

StepDocument translate(const StepSource& source) {
  const std::string file = source.step_file.string();
  Handle(TDocStd_Document) xcaf;
  XCAFApp_Application::GetApplication()->NewDocument("MDTV-XCAF", xcaf);
  STEPCAFControl_Reader reader;
  reader.SetColorMode(true);
  reader.SetNameMode(true);
  if (reader.ReadFile(file.c_str()) != IFSelect_RetDone) {
    throw std::invalid_argument(
        file +
        ": the STEP reader cannot make sense of it; export the part anew as STEP AP214 or AP242");
  }
  StepDocument document;
  document.declared_unit = unit_of(reader);
  if (!reader.Transfer(xcaf)) {
    throw std::invalid_argument(file +
                                ": holds no shape that can be read; export the part as a solid "
                                "body in STEP AP214 or AP242");
  }
  TDF_LabelSequence roots;
  XCAFDoc_DocumentTool::ShapeTool(xcaf->Main())->GetFreeShapes(roots);
  const EntityNotes notes = notes_of_entities(reader.Reader().WS());
  Collector collector(notes, document);
  for (const TDF_Label& root : roots) {
    collector.visit(root, TopLoc_Location(), {});
  }
  if (source.scale != 1.0) {
    scale_lengths(document, source.scale);
  }
  return document;
}

}  // namespace

StepDocument read_step_document(const StepSource& source) {
  if (!(source.scale > 0.0) || !std::isfinite(source.scale)) {
    throw std::invalid_argument(source.step_file.string() + ": scale " +
                                std::to_string(source.scale) + " must be a positive number");
  }
  check_step_file(source.step_file);
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_Printer));
  try {
    return translate(source);
  } catch (const Standard_Failure& failure) {
    throw std::invalid_argument(source.step_file.string() + ": the STEP reader gave up (" +
                                failure.GetMessageString() +
                                "); export the part anew as STEP AP214 or AP242");
  }
}

}  // namespace crossgrain
