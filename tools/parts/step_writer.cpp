// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/parts/step_writer.h"

#include <APIHeaderSection_MakeHeader.hxx>
#include <BRepBuilderAPI_MakeVertex.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_PrinterOStream.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Controller.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <STEPConstruct.hxx>
#include <StepRepr_RepresentationItem.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Vertex.hxx>
#include <Transfer_FinderProcess.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XSControl_TransferWriter.hxx>
#include <XSControl_WorkSession.hxx>
#include <stdexcept>

namespace crossgrain::parts {
namespace {

Quantity_Color quantity(const Colour& colour) {
  return Quantity_Color(colour[0], colour[1], colour[2], Quantity_TOC_sRGB);
}

const char* unit_word(StepUnit unit) {
  switch (unit) {
    case StepUnit::inch:
      return "INCH";
    case StepUnit::metre:
      return "M";
    case StepUnit::millimetre:
      break;
  }
  return "MM";
}

const char* schema_word(StepSchema schema) {
  switch (schema) {
    case StepSchema::AP203:
      return "AP203";
    case StepSchema::AP242:
      return "AP242DIS";
    case StepSchema::AP214:
      break;
  }
  return "AP214IS";
}

Handle(TDocStd_Document) document_of(const std::vector<StepBody>& bodies) {
  Handle(TDocStd_Document) document;
  XCAFApp_Application::GetApplication()->NewDocument("BinXCAF", document);
  const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document->Main());
  const auto colours = XCAFDoc_DocumentTool::ColorTool(document->Main());
  for (const StepBody& body : bodies) {
    const TDF_Label label = shapes->AddShape(body.shape, Standard_False);
    TDataStd_Name::Set(label, TCollection_ExtendedString(body.name.c_str(), Standard_True));
    if (body.colour) colours->SetColor(label, quantity(*body.colour), XCAFDoc_ColorSurf);
    for (const FaceMark& mark : body.marks) {
      if (!mark.colour) continue;
      colours->SetColor(shapes->AddSubShape(label, mark.face), quantity(*mark.colour),
                        XCAFDoc_ColorSurf);
    }
  }
  return document;
}

// The document's writer gives names to products only; a face's name is the first attribute of its
// STEP entity.
void name_face_entities(const std::vector<StepBody>& bodies, const STEPCAFControl_Writer& writer) {
  const auto process = writer.Writer().WS()->TransferWriter()->FinderProcess();
  for (const StepBody& body : bodies) {
    for (const FaceMark& mark : body.marks) {
      const auto item = STEPConstruct::FindEntity(process, mark.face);
      if (item.IsNull())
        throw std::runtime_error("no STEP entity was written for face '" + mark.name + "'");
      item->SetName(new TCollection_HAsciiString(mark.name.c_str()));
    }
  }
}

// The kernel narrates every transfer on standard output.
void silence_kernel() {
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_PrinterOStream));
}

}  // namespace

void write_step(const std::vector<StepBody>& bodies, const std::filesystem::path& file,
                StepUnit unit, StepSchema schema) {
  silence_kernel();
  // A writer takes its unit when it is made.
  STEPCAFControl_Controller::Init();
  Interface_Static::SetCVal("write.step.unit", unit_word(unit));
  Interface_Static::SetCVal("write.step.schema", schema_word(schema));
  Interface_Static::SetCVal("write.step.product.name", "part");
  STEPCAFControl_Writer writer;
  writer.SetColorMode(Standard_True);
  writer.SetNameMode(Standard_True);
  if (!writer.Transfer(document_of(bodies), STEPControl_AsIs)) {
    throw std::runtime_error("the STEP writer refused the shapes for " + file.string());
  }
  name_face_entities(bodies, writer);
  APIHeaderSection_MakeHeader header(writer.ChangeWriter().Model());
  header.SetName(new TCollection_HAsciiString(file.filename().c_str()));
  header.SetTimeStamp(new TCollection_HAsciiString("2026-01-01T00:00:00"));
  if (writer.Write(file.c_str()) != IFSelect_RetDone) {
    throw std::runtime_error("cannot write " + file.string());
  }
}

TopoDS_Shape only_solid(const TopoDS_Shape& shape) {
  TopExp_Explorer solids(shape, TopAbs_SOLID);
  if (!solids.More()) throw std::logic_error("the shape holds no solid");
  const TopoDS_Shape solid = solids.Current();
  solids.Next();
  if (solids.More()) throw std::logic_error("the shape holds more than one solid");
  return solid;
}

TopoDS_Face face_at(const TopoDS_Shape& shape, const std::array<double, 3>& point) {
  const TopoDS_Vertex vertex = BRepBuilderAPI_MakeVertex(gp_Pnt(point[0], point[1], point[2]));
  std::vector<TopoDS_Face> found;
  for (TopExp_Explorer faces(shape, TopAbs_FACE); faces.More(); faces.Next()) {
    const BRepExtrema_DistShapeShape distance(vertex, faces.Current());
    if (distance.IsDone() && distance.Value() < 1e-6)
      found.push_back(TopoDS::Face(faces.Current()));
  }
  if (found.size() != 1) {
    throw std::logic_error(std::to_string(found.size()) + " faces at the point instead of one");
  }
  return found.front();
}

}  // namespace crossgrain::parts
