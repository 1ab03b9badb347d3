// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/vtk_file.h"

#include <vtkCallbackCommand.h>
#include <vtkCommand.h>
#include <vtkErrorCode.h>
#include <vtkExecutive.h>
#include <vtkNew.h>
#include <vtkXMLPolyDataWriter.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include <algorithm>
#include <fstream>
#include <stdexcept>

#include "tools/results/atomic_file.h"

namespace crossgrain {
namespace {

namespace fs = std::filesystem;

std::string words_for_writer_error(unsigned long error) {
  switch (error) {
    case vtkErrorCode::OutOfDiskSpaceError:
      return "the disk is full, or the file would pass a size limit";
    case vtkErrorCode::CannotOpenFileError:
      return "the file cannot be opened";
    default:
      return "the writer reports error " + std::to_string(error);
  }
}

/// The writer closes a file without looking whether its last bytes arrived.
bool ends_with(const fs::path& file, const std::string& ending) {
  std::ifstream in(file, std::ios::binary | std::ios::ate);
  const auto size = static_cast<std::streamoff>(in.tellg());
  const std::streamoff tail = std::min<std::streamoff>(size, 64);
  if (!in || tail <= 0) return false;
  std::string text(static_cast<std::size_t>(tail), '\0');
  in.seekg(size - tail);
  return in.read(text.data(), tail) && text.find(ending) != std::string::npos;
}

template <class Writer, class DataSet>
void write_data_set(DataSet& data, const fs::path& file, const fs::path& shown) {
  vtkNew<Writer> writer;
  // Without an observer VTK prints its own lines to standard error; the exception below says it
  // better.
  vtkNew<vtkCallbackCommand> silent;
  silent->SetCallback([](vtkObject*, unsigned long, void*, void*) {});
  writer->AddObserver(vtkCommand::ErrorEvent, silent);
  writer->GetExecutive()->AddObserver(vtkCommand::ErrorEvent, silent);
  writer->SetFileName(file.c_str());
  writer->SetInputData(&data);
  writer->SetDataModeToAppended();
  writer->EncodeAppendedDataOff();
  writer->SetCompressorTypeToLZ4();
  writer->SetHeaderTypeToUInt64();
  // Write() returns 1 even on a full disk; only the error code tells.
  const bool written = writer->Write() == 1 && writer->GetErrorCode() == vtkErrorCode::NoError;
  if (written && ends_with(file, "</VTKFile>")) return;
  const std::string why =
      written ? "the file came out incomplete" : words_for_writer_error(writer->GetErrorCode());
  throw std::invalid_argument(cannot_write(shown, why));
}

}  // namespace

void write_vtk(vtkUnstructuredGrid& data, const fs::path& file, const fs::path& shown) {
  write_data_set<vtkXMLUnstructuredGridWriter>(data, file, shown);
}

void write_vtk(vtkPolyData& data, const fs::path& file, const fs::path& shown) {
  write_data_set<vtkXMLPolyDataWriter>(data, file, shown);
}

}  // namespace crossgrain
