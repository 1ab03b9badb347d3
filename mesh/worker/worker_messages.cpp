// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/worker/worker_messages.h"

#include "mesh/worker/json_of_types.h"

namespace crossgrain {

#define CROSSGRAIN_FIELDS NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE
CROSSGRAIN_FIELDS(Box, low, high)
CROSSGRAIN_FIELDS(LoopEdge, edge, forward)
CROSSGRAIN_FIELDS(CadFace, id, body, kind, area, centroid, box, axis, origin, radius, minor_radius,
                  half_angle, turn, along_low, along_high, hollow, name, colour, loops, vector_area,
                  cone_volume)
CROSSGRAIN_FIELDS(CadEdge, id, length, middle, centroid, faces, swept_area, circle_radius,
                  circle_centre, circle_axis, closed, degenerate, course, material_angle)
CROSSGRAIN_FIELDS(Body, id, name, name_in_file, file, modelled, volume, area, centroid, box, faces,
                  shells, colour)
CROSSGRAIN_FIELDS(SurfaceTriangles, points, triangles, face_of_triangle)
CROSSGRAIN_FIELDS(ReadFile, path, declared_unit, scale)
CROSSGRAIN_FIELDS(Geometry, files, bodies, faces, edges, surface, box, warnings)
CROSSGRAIN_FIELDS(Placement, axis, angle, about, shift)
CROSSGRAIN_FIELDS(StepSource, step_file, scale, bodies, placement)
CROSSGRAIN_FIELDS(KeptApart, first, second, interference)
CROSSGRAIN_FIELDS(ImportOptions, files, apart)
CROSSGRAIN_FIELDS(SizeBall, centre, radius, size)
CROSSGRAIN_FIELDS(SizedPoint, point, size)
CROSSGRAIN_FIELDS(MeshOptions, layers, size, size_min, elements_per_turn, refinement, unknowns_max,
                  deterministic, balls, wanted_sizes, time_limit, mesh_file, write_msh)
CROSSGRAIN_FIELDS(ThinPlace, face, position, wall, layers)
CROSSGRAIN_FIELDS(MeshReport, remedies, curved_elements_straightened, min_scaled_jacobian,
                  flattest_at, volume_mm3, cad_volume_mm3, layers_min, wall_min_mm, thin_places)
CROSSGRAIN_FIELDS(TetrahedronMesh, nodes, tetrahedra, body_of_tetrahedron, triangles,
                  face_of_triangle, tetrahedron_of_triangle, twin_of_triangle)
CROSSGRAIN_FIELDS(MeshedGeometry, geometry, mesh, report)
CROSSGRAIN_FIELDS(Remedy, words, size_factor, mesh_adapt, least_size, free_of_layers)
CROSSGRAIN_FIELDS(WorkerRequest, import, mesh, remedy)
CROSSGRAIN_FIELDS(WorkerAnswer, input_error, meshing_error, meshed)
#undef CROSSGRAIN_FIELDS

Bytes pack(const WorkerRequest& request) { return nlohmann::json::to_cbor(request); }
Bytes pack(const WorkerAnswer& answer) { return nlohmann::json::to_cbor(answer); }

WorkerRequest unpack_request(const Bytes& bytes) {
  return nlohmann::json::from_cbor(bytes).get<WorkerRequest>();
}
WorkerAnswer unpack_answer(const Bytes& bytes) {
  return nlohmann::json::from_cbor(bytes).get<WorkerAnswer>();
}

}  // namespace crossgrain
