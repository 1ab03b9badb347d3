// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "mesh/step/import_options.h"
#include "mesh/tetrahedra/mesh_options.h"
#include "mesh/tetrahedra/mesh_report.h"
#include "mesh/tetrahedra/remedies.h"
#include "mesh/worker/worker_process.h"

namespace crossgrain {

/// What a worker is asked to do.
struct WorkerRequest {
  ImportOptions import;
  std::optional<MeshOptions> mesh;  ///< none: import only
  Remedy remedy;
};

/// What it hands back: an error of one of two kinds, or the result.
struct WorkerAnswer {
  std::string input_error;    ///< the user's: becomes std::invalid_argument
  std::string meshing_error;  ///< meshing failed; another remedy may help
  MeshedGeometry meshed;      ///< geometry alone if only an import was asked for
};

// As CBOR, large matrices as raw little-endian bytes: both ends are the same program.
Bytes pack(const WorkerRequest& request);
Bytes pack(const WorkerAnswer& answer);
WorkerRequest unpack_request(const Bytes& bytes);
WorkerAnswer unpack_answer(const Bytes& bytes);

}  // namespace crossgrain
