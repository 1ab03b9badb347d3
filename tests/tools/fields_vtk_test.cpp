// SPDX-License-Identifier: GPL-3.0-or-later
// Every check here reads the files back with VTK's own readers.
#include "tools/results/fields_vtk.h"

#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkStringArray.h>
#include <vtkTetra.h>
#include <vtkTriangle.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>

#include "tests/support/near.h"
#include "tests/tools/synthetic_run.h"
#include "tools/results/write_results.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace fs = std::filesystem;

namespace {

// Stress and factors are kept in single precision: 24 bits.
constexpr double single_precision = 1e-6;

vtkSmartPointer<vtkUnstructuredGrid> read_volume(const fs::path& file) {
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName(file.c_str());
  reader->Update();
  return reader->GetOutput();
}

vtkSmartPointer<vtkPolyData> read_faces(const fs::path& file) {
  vtkNew<vtkXMLPolyDataReader> reader;
  reader->SetFileName(file.c_str());
  reader->Update();
  return reader->GetOutput();
}

/// Components x tuples of a named array.
Eigen::MatrixXd values(vtkFieldData* data, const char* name) {
  vtkDataArray* array = data->GetArray(name);
  BOOST_TEST_REQUIRE(array, "no array named " << name);
  Eigen::MatrixXd out(array->GetNumberOfComponents(), array->GetNumberOfTuples());
  for (Eigen::Index i = 0; i < out.cols(); ++i) array->GetTuple(i, out.col(i).data());
  return out;
}

Eigen::Vector3d point(vtkDataSet* grid, vtkIdType i) {
  return Eigen::Map<const Eigen::Vector3d>(grid->GetPoint(i));
}

void check_point_fields(vtkDataSet* grid, int load_case) {
  const Eigen::MatrixXd displacement = values(grid->GetPointData(), "displacement_mm");
  const Eigen::MatrixXd stress = values(grid->GetPointData(), "stress_MPa");
  const Eigen::MatrixXd factor = values(grid->GetPointData(), "safety_factor_interlayer");
  const Eigen::MatrixXd governing = values(grid->GetPointData(), "governing_mode");
  for (vtkIdType i = 0; i < grid->GetNumberOfPoints(); ++i) {
    const Eigen::Vector3d x = point(grid, i);
    const Vector6d s = SyntheticRun::stress(x, load_case);
    Vector6d vtk_order;
    vtk_order << s[0], s[1], s[2], s[5], s[3], s[4];  // XX YY ZZ XY YZ XZ
    const double expected_factor = x.x() == 0.0 ? no_limit_factor : 100.0 / x.x();

    BOOST_TEST(near(displacement.col(i), SyntheticRun::displacement(x, load_case), 1e-14));
    BOOST_TEST(near(stress.col(i), vtk_order, single_precision));
    BOOST_TEST(factor(0, i) == expected_factor, boost::test_tools::tolerance(single_precision));
    BOOST_TEST(governing(0, i) == (x.x() == 0.0 ? -1 : static_cast<int>(FailureMode::interlayer)));
  }
}

struct Written {
  SyntheticRun run;
  fs::path directory = empty_directory("fields");
  Written() { write_results(run.outputs(), {}, directory); }
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(written_fields, Written)

BOOST_AUTO_TEST_CASE(the_volume_holds_quadratic_tetrahedra_in_vtk_node_order) {
  const auto grid = read_volume(directory / "fields.vtu");
  BOOST_TEST_REQUIRE(grid->GetNumberOfCells() == 12);  // two cells of six

  double volume = 0.0;
  for (vtkIdType c = 0; c < grid->GetNumberOfCells(); ++c) {
    vtkCell* cell = grid->GetCell(c);
    BOOST_TEST_REQUIRE(cell->GetCellType() == VTK_QUADRATIC_TETRA);
    // VTK itself says which node is the middle of which edge: corner, corner, middle.
    for (int e = 0; e < cell->GetNumberOfEdges(); ++e) {
      vtkIdList* edge = cell->GetEdge(e)->GetPointIds();
      const Eigen::Vector3d middle =
          0.5 * (point(grid, edge->GetId(0)) + point(grid, edge->GetId(1)));
      BOOST_TEST(near(point(grid, edge->GetId(2)), middle, 1e-14));
    }
    double corners[4][3];
    for (int k = 0; k < 4; ++k) grid->GetPoint(cell->GetPointId(k), corners[k]);
    volume += vtkTetra::ComputeVolume(corners[0], corners[1], corners[2], corners[3]);
  }
  BOOST_TEST(volume == 2000.0, boost::test_tools::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_node_between_two_bodies_is_a_point_of_each) {
  const auto grid = read_volume(directory / "fields.vtu");
  const Eigen::MatrixXd body_of_cell = values(grid->GetCellData(), "body");
  const Eigen::MatrixXd body_of_point = values(grid->GetPointData(), "body");

  // A 1 x 1 face has 9 nodes on it; each is there twice.
  BOOST_TEST(grid->GetNumberOfPoints() == run.meshed.mesh.node_count() + 9);
  for (vtkIdType c = 0; c < grid->GetNumberOfCells(); ++c) {
    for (vtkIdType k = 0; k < 10; ++k) {
      BOOST_TEST(body_of_point(0, grid->GetCell(c)->GetPointId(k)) == body_of_cell(0, c));
    }
  }
}

BOOST_AUTO_TEST_CASE(fields_of_both_cases_come_back_as_they_were) {
  check_point_fields(read_volume(directory / "fields.vtu"), 1);
  check_point_fields(read_volume(directory / "fields_1_assembly.vtu"), 0);
  check_point_fields(read_faces(directory / "faces.vtp"), 1);
  check_point_fields(read_faces(directory / "faces_1_assembly.vtp"), 0);
}

BOOST_AUTO_TEST_CASE(viewers_recognise_the_stress_as_a_tensor_and_the_displacement_as_a_vector) {
  const auto grid = read_volume(directory / "fields.vtu");

  vtkDataArray* tensor = grid->GetPointData()->GetTensors();
  BOOST_TEST_REQUIRE(tensor);
  BOOST_TEST(std::string(tensor->GetName()) == "stress_MPa");
  const std::vector<std::string> names = {"XX", "YY", "ZZ", "XY", "YZ", "XZ"};
  for (int c = 0; c < 6; ++c) BOOST_TEST(tensor->GetComponentName(c) == names[c]);
  BOOST_TEST_REQUIRE(grid->GetPointData()->GetVectors());
  BOOST_TEST(std::string(grid->GetPointData()->GetVectors()->GetName()) == "displacement_mm");
}

BOOST_AUTO_TEST_CASE(layer_stresses_are_those_along_and_across_the_print_direction) {
  const auto grid = read_volume(directory / "fields.vtu");
  const Eigen::MatrixXd body = values(grid->GetPointData(), "body");
  const Eigen::MatrixXd tension = values(grid->GetPointData(), "tension_across_layers_MPa");
  const Eigen::MatrixXd shear = values(grid->GetPointData(), "shear_between_layers_MPa");
  const Eigen::MatrixXd direction = values(grid->GetCellData(), "print_direction");

  for (vtkIdType i = 0; i < grid->GetNumberOfPoints(); ++i) {
    // Body 1 is printed along +Z: s33 and the two shears with a 3 in them; body 2 has no layers.
    const Vector6d s = SyntheticRun::stress(point(grid, i), 1);
    const bool layered = body(0, i) == 1;
    BOOST_TEST(tension(0, i) == (layered ? s[2] : 0.0),
               boost::test_tools::tolerance(single_precision));
    BOOST_TEST(shear(0, i) == (layered ? 2.0 * 0.5 : 0.0),
               boost::test_tools::tolerance(single_precision));
  }
  const Eigen::MatrixXd body_of_cell = values(grid->GetCellData(), "body");
  for (vtkIdType c = 0; c < grid->GetNumberOfCells(); ++c) {
    const Eigen::Vector3d expected =
        body_of_cell(0, c) == 1 ? Eigen::Vector3d::UnitZ() : Eigen::Vector3d::UnitX();
    BOOST_TEST(near(direction.col(c), expected, 1e-14));
  }
}

BOOST_AUTO_TEST_CASE(von_mises_is_that_of_the_textbook) {
  const auto grid = read_volume(directory / "fields.vtu");
  const Eigen::MatrixXd obtained = values(grid->GetPointData(), "von_mises_not_for_layers_MPa");

  for (vtkIdType i = 0; i < grid->GetNumberOfPoints(); ++i) {
    const Vector6d s = SyntheticRun::stress(point(grid, i), 1);
    Eigen::Matrix3d tensor;
    tensor << s[0], s[5], s[4], s[5], s[1], s[3], s[4], s[3], s[2];
    const Eigen::Matrix3d deviator = tensor - tensor.trace() / 3.0 * Eigen::Matrix3d::Identity();
    BOOST_TEST(obtained(0, i) == std::sqrt(1.5) * deviator.norm(),
               boost::test_tools::tolerance(single_precision));
  }
}

BOOST_AUTO_TEST_CASE(names_of_modes_and_case_and_the_cap_are_in_the_field_data) {
  const auto grid = read_volume(directory / "fields.vtu");
  auto* modes = vtkStringArray::SafeDownCast(grid->GetFieldData()->GetAbstractArray("mode_names"));
  auto* load_case =
      vtkStringArray::SafeDownCast(grid->GetFieldData()->GetAbstractArray("load_case"));

  BOOST_TEST_REQUIRE((modes && load_case));
  BOOST_TEST(modes->GetValue(static_cast<int>(FailureMode::interlayer)) == "interlayer");
  BOOST_TEST(modes->GetValue(static_cast<int>(FailureMode::maximum_stress)) == "maximum_stress");
  BOOST_TEST(load_case->GetValue(0) == "working (screws take none of the pressure)");
  BOOST_TEST(values(grid->GetFieldData(), "safety_factor_no_limit")(0, 0) == no_limit_factor);
}

BOOST_AUTO_TEST_CASE(the_faces_cover_the_boundary_once_and_look_outwards) {
  const auto grid = read_faces(directory / "faces.vtp");
  const Eigen::MatrixXd face = values(grid->GetCellData(), "face");
  BOOST_TEST_REQUIRE(grid->GetNumberOfCells() == 4 * run.meshed.mesh.triangle_count());

  std::map<int, double> area;
  for (vtkIdType c = 0; c < grid->GetNumberOfCells(); ++c) {
    vtkCell* cell = grid->GetCell(c);
    BOOST_TEST_REQUIRE(cell->GetNumberOfPoints() == 3);
    const Eigen::Vector3d a = point(grid, cell->GetPointId(0));
    const Eigen::Vector3d twice_area =
        (point(grid, cell->GetPointId(1)) - a).cross(point(grid, cell->GetPointId(2)) - a);
    area[static_cast<int>(face(0, c))] += 0.5 * twice_area.norm();
    BOOST_TEST(twice_area.dot(a - Eigen::Vector3d(10.0, 5.0, 5.0)) > 0.0);
  }
  BOOST_TEST(area.size() == 6U);
  // Ends of 10 x 10 mm are faces 1 and 2, sides of 20 x 10 mm the others.
  for (const auto& [id, size] : area)
    BOOST_TEST(size == (id <= 2 ? 100.0 : 200.0), boost::test_tools::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(the_faces_that_meet_hold_what_became_of_them) {
  for (const auto& [file, c] : {std::pair{"joint.vtp", 1}, std::pair{"joint_1_assembly.vtp", 0}}) {
    const auto grid = read_faces(directory / file);
    const auto cells = [&](const char* name) { return values(grid->GetCellData(), name); };
    const Eigen::MatrixXd pressure = cells("contact_pressure_MPa"),
                          area = cells("contact_area_mm2");
    const Eigen::MatrixXd gap = cells("gap_mm"), side = cells("side"), face = cells("face");
    const Eigen::MatrixXd state = cells("contact_state"), fluid = cells("fluid_pressure_MPa");
    BOOST_TEST_REQUIRE(grid->GetNumberOfCells() == 2 * 2 * 4);  // sides, triangles, flat parts

    double force[3] = {0.0, 0.0, 0.0};
    for (vtkIdType i = 0; i < grid->GetNumberOfCells(); ++i) {
      force[static_cast<int>(side(0, i))] += pressure(0, i) * area(0, i);
      BOOST_TEST(side(0, i) == face(0, i));  // faces 1 and 2 of the bar
      BOOST_TEST(gap(0, i) == -0.1 * pressure(0, i));
      BOOST_TEST(fluid(0, i) == 0.25 * c);
      BOOST_TEST(state(0, i) == (c == 0 ? 2.0 : 1.0));
    }
    for (const int which : {1, 2})
      BOOST_TEST(force[which] == 50.0 * (1.0 + 2.0) * (c + 1), boost::test_tools::tolerance(1e-12));
    const Eigen::MatrixXd moved = values(grid->GetPointData(), "displacement_mm");
    for (vtkIdType i = 0; i < grid->GetNumberOfPoints(); ++i)
      BOOST_TEST(near(moved.col(i), SyntheticRun::displacement(point(grid, i), c), 1e-14));
    auto* states =
        vtkStringArray::SafeDownCast(grid->GetFieldData()->GetAbstractArray("contact_state_names"));
    BOOST_TEST_REQUIRE(states);
    BOOST_TEST(states->GetValue(1) == "partly_open");
    BOOST_TEST(states->GetValue(2) == "pressed");
  }
}

BOOST_AUTO_TEST_CASE(a_run_of_one_body_leaves_no_joint_of_an_earlier_one) {
  RunResult& result = run.result;
  result.joint.reset();
  for (CaseResult& c : result.cases) c.meetings.clear();

  write_results(run.outputs(), {}, directory);

  for (const char* file :
       {"joint.vtp", "joint_1_assembly.vtp", "joint.pvd", "joint.csv", "joint_forces.svg"})
    BOOST_TEST(!fs::exists(directory / file));
  BOOST_TEST(fs::exists(directory / "faces.vtp"));
}

BOOST_AUTO_TEST_CASE(the_collections_list_one_existing_file_per_case) {
  for (const auto& [collection, files] :
       {std::pair{"fields.pvd", std::vector{"fields_1_assembly.vtu", "fields.vtu"}},
        std::pair{"faces.pvd", std::vector{"faces_1_assembly.vtp", "faces.vtp"}},
        std::pair{"joint.pvd", std::vector{"joint_1_assembly.vtp", "joint.vtp"}}}) {
    const std::string text = content_of(directory / collection);
    for (std::size_t i = 0; i < files.size(); ++i) {
      const std::string entry =
          "timestep=\"" + std::to_string(i) + "\" group=\"\" part=\"0\" file=\"" + files[i] + '"';
      BOOST_TEST(text.find(entry) != std::string::npos);
      BOOST_TEST(fs::exists(directory / files[i]));
    }
  }
}

BOOST_AUTO_TEST_CASE(appended_raw_and_compressed_as_promised) {
  const std::string head = content_of(directory / "fields.vtu").substr(0, 20000);
  BOOST_TEST(head.find("compressor=\"vtkLZ4DataCompressor\"") != std::string::npos);
  BOOST_TEST(head.find("format=\"appended\"") != std::string::npos);
  BOOST_TEST(head.find("<AppendedData encoding=\"raw\">") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_CASE(a_stress_that_is_no_number_is_refused_unless_the_case_admits_to_it) {
  SyntheticRun run;
  run.result.cases[1].fields.stress(2, 3) = std::numeric_limits<double>::quiet_NaN();
  const fs::path directory = empty_directory("not_a_number");

  BOOST_CHECK_EXCEPTION(
      write_results(run.outputs(), {}, directory), std::runtime_error, [](const auto& error) {
        return std::string(error.what()).find("stress_MPa of load case \"working\"") !=
               std::string::npos;
      });
  BOOST_TEST(fs::is_empty(directory));

  run.result.cases[1].distrust = {"the stress at (1, 2, 3) is not a number"};
  write_results(run.outputs(), {}, directory);
  const Eigen::MatrixXd stress =
      values(read_volume(directory / "fields.vtu")->GetPointData(), "stress_MPa");
  BOOST_TEST(std::isnan(stress(2, 3)));
}
