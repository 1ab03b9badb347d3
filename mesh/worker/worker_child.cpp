// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/worker/worker_child.h"

#include <sys/prctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <Standard_Failure.hxx>
#include <cerrno>
#include <csignal>
#include <cstdio>

#include "mesh/step/stages.h"
#include "mesh/step/step_reader.h"
#include "mesh/tetrahedra/meshing_failure.h"
#include "mesh/tetrahedra/shape_mesher.h"
#include "mesh/worker/worker_arguments.h"
#include "mesh/worker/worker_messages.h"

namespace crossgrain {
namespace {

Bytes read_request(int file) {
  struct stat about {};
  if (fstat(file, &about) != 0) return {};
  Bytes bytes(static_cast<std::size_t>(about.st_size));
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n =
        pread(file, bytes.data() + done, bytes.size() - done, static_cast<off_t>(done));
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) break;
    done += static_cast<std::size_t>(n);
  }
  return bytes;
}

bool write_answer(int file, const Bytes& bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n = write(file, bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    done += static_cast<std::size_t>(n);
  }
  return true;
}

WorkerAnswer work(const WorkerRequest& request) {
  WorkerAnswer answer;
  try {
    announce_stage("reading the STEP file", -1.0);
    ReadStep step = read_step(request.import);
    if (request.mesh) {
      answer.meshed = mesh_shape(step, *request.mesh, request.remedy);
    }
    answer.meshed.geometry = std::move(step.geometry);
  } catch (const MeshingFailure& failure) {
    answer.meshing_error = failure.what();
  } catch (const std::invalid_argument& error) {
    answer.input_error = error.what();
  } catch (const Standard_Failure& failure) {
    answer.meshing_error = std::string("the CAD kernel gave up: ") + failure.GetMessageString();
  } catch (const std::exception& error) {
    answer.meshing_error = error.what();
  }
  return answer;
}

}  // namespace

std::optional<int> run_as_mesh_worker(int argc, char** argv) {
  const std::optional<WorkerArguments> arguments = parse_worker_arguments(argc, argv);
  if (!arguments) return std::nullopt;
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  if (getppid() != arguments->parent) _exit(1);  // it died before the line above

  int status = 0;
  try {
    const WorkerAnswer answer = work(unpack_request(read_request(arguments->request)));
    status = write_answer(arguments->answer, pack(answer)) ? 0 : 1;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    status = 1;
  }
  std::fflush(nullptr);
  // Not through exit(): the kernels' destructors of static data take long and may crash.
  _exit(status);
}

}  // namespace crossgrain
