// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/fields_vtk.h"

#include <vtkNew.h>

#include "tools/results/plain_text.h"
#include "tools/results/vtk_file.h"
#include "tools/results/vtk_grids.h"

namespace crossgrain {
namespace fs = std::filesystem;

struct FieldWriter::Grids {
  Grid<vtkUnstructuredGrid> volume;
  Grid<vtkPolyData> faces;
};

FieldWriter::FieldWriter(const RunOutputs& outputs)
    : outputs_(outputs), grids_(new Grids{volume_grid(outputs), face_grid(outputs)}) {}

FieldWriter::~FieldWriter() = default;

void FieldWriter::write_volume(std::size_t load_case, const fs::path& file,
                               const fs::path& shown) const {
  vtkNew<vtkUnstructuredGrid> grid;
  grid->ShallowCopy(grids_->volume.data);
  add_case_fields(*grid, grids_->volume.stress_point, outputs_, load_case);
  write_vtk(*grid, file, shown);
}

void FieldWriter::write_faces(std::size_t load_case, const fs::path& file,
                              const fs::path& shown) const {
  vtkNew<vtkPolyData> grid;
  grid->ShallowCopy(grids_->faces.data);
  add_case_fields(*grid, grids_->faces.stress_point, outputs_, load_case);
  write_vtk(*grid, file, shown);
}

void FieldWriter::write_meeting_faces(std::size_t load_case, const fs::path& file,
                                      const fs::path& shown) const {
  write_vtk(*meeting_grid(outputs_, load_case), file, shown);
}

std::string field_collection(const std::vector<std::string>& file_names) {
  std::string out =
      "<?xml version=\"1.0\"?>\n<VTKFile type=\"Collection\" version=\"1.0\" "
      "byte_order=\"LittleEndian\">\n"
      "  <Collection>\n";
  for (std::size_t i = 0; i < file_names.size(); ++i) {
    out += "    <DataSet timestep=\"" + std::to_string(i) + "\" group=\"\" part=\"0\" file=\"" +
           xml_text(file_names[i]) + "\"/>\n";
  }
  return out + "  </Collection>\n</VTKFile>\n";
}

}  // namespace crossgrain
