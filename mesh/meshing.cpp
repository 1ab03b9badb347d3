// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/meshing.h"

#include <cstring>
#include <map>
#include <sstream>
#include <stdexcept>

#include "mesh/tetrahedra/mesh_checks.h"
#include "mesh/worker/worker_messages.h"

namespace crossgrain {
namespace {

using End = WorkerResult::End;

std::string seconds(std::chrono::duration<double> time) {
  std::ostringstream text;
  text.precision(3);
  text << time.count() << " s";
  return text.str();
}

/// How a child that gave no answer ended, in words.
std::string describe_end(const WorkerResult& result, const WorkerLimits& limits) {
  std::string words;
  switch (result.end) {
    case End::out_of_time:
      words = "was not done after " + seconds(limits.total);
      break;
    case End::stuck_on_face:
      words = "made no progress for " + seconds(limits.silence);
      break;
    default:
      words = "crashed";
      if (result.status >= 128 || result.status < 32) {
        const char* name = strsignal(result.status);
        if (name) words += std::string(" (") + name + ")";
      }
  }
  words += " while " + result.stage;
  if (result.face) words += ", last at face " + std::to_string(*result.face);
  return words;
}

/// "bowl.step, lid.step"
std::string files_of(const ImportOptions& import) {
  std::string words;
  for (const StepSource& source : import.files)
    words += (words.empty() ? "" : ", ") + source.step_file.string();
  return words;
}

void throw_if_cancelled(const Cancellable& job) {
  if (job.cancelled()) throw std::runtime_error("meshing was cancelled");
}

/// "cylinder, 31.4 mm^2, round (1, 2, 3) mm": enough to find a face in CAD.
std::string describe_face(const Geometry& geometry, int number) {
  if (number < 1 || static_cast<std::size_t>(number) > geometry.faces.size()) return "";
  static constexpr const char* kinds[] = {"plane",  "cylinder", "cone",
                                          "sphere", "torus",    "freeform"};
  const CadFace& face = geometry.face(FaceId{number});
  std::ostringstream text;
  text.precision(4);
  text << " (" << kinds[static_cast<int>(face.kind)] << ", " << face.area << " mm^2, centroid ("
       << face.centroid.x() << ", " << face.centroid.y() << ", " << face.centroid.z() << ") mm)";
  return text.str();
}

/// How one try went.
struct Try {
  WorkerAnswer answer;
  std::string failure;      ///< empty if it worked
  std::optional<int> face;  ///< where it failed, if known
  bool out_of_time = false;
  std::map<std::string, double> seconds;  ///< by stage
};

Try attempt(const WorkerRequest& request, const WorkerLimits& limits, Cancellable& job,
            const Progress& progress) {
  throw_if_cancelled(job);
  const WorkerResult result = run_worker(pack(request), limits, job, progress);
  throw_if_cancelled(job);
  if (result.end != End::answered)
    return {{},
            describe_end(result, limits),
            result.face,
            result.end == End::out_of_time,
            result.seconds};
  Try done{unpack_answer(result.answer), "", result.face, false, result.seconds};
  if (!done.answer.input_error.empty()) throw std::invalid_argument(done.answer.input_error);
  done.failure = done.answer.meshing_error;
  return done;
}

[[noreturn]] void throw_all_failed(const ImportOptions& import, const std::string& failures,
                                   std::optional<int> face) {
  std::string where;
  if (face) {
    where = " at face " + std::to_string(*face);
    try {
      where += describe_face(import_step(import), *face);
    } catch (const std::exception&) {
      // The face's number alone must do.
    }
  }
  throw std::invalid_argument(
      files_of(import) + ": meshing failed" + where +
      "; look there in CAD for slivers, self-intersections and tiny edges, heal and export again, "
      "or set another [mesh] size. Tried:" +
      failures);
}

}  // namespace

Geometry import_step(const ImportOptions& options) {
  using namespace std::chrono_literals;
  Cancellable job;
  const WorkerLimits limits{600s, 600s};
  Try done = attempt({options, std::nullopt, {}}, limits, job, {});
  if (!done.failure.empty())
    throw std::invalid_argument(files_of(options) + ": the CAD kernel " + done.failure +
                                "; export again from CAD, as AP214 or AP242");
  return std::move(done.answer.meshed.geometry);
}

MeshedGeometry mesh_step(const ImportOptions& import, const MeshOptions& options,
                         const Progress& progress) {
  using Clock = std::chrono::steady_clock;
  Cancellable job;
  const auto begin = Clock::now();
  const std::chrono::duration<double> allowed = options.time_limit;
  std::string failures;
  std::optional<int> face;
  bool too_slow = false;
  std::map<std::string, double> seconds;
  std::optional<MeshedGeometry> best;  // a mesh with flat elements is better than none
  for (const Remedy& remedy : ladder_of_remedies()) {
    if (too_slow && !(remedy.size_factor > 1.0)) continue;
    const std::chrono::duration<double> left = allowed - (Clock::now() - begin);
    if (!(left > 0.02 * allowed)) break;
    const WorkerLimits limits{left / 2, allowed / 6};
    Try done = attempt({import, options, remedy}, limits, job, progress);
    for (const auto& [stage, time] : done.seconds) seconds[stage] += time;
    if (done.failure.empty()) {
      MeshedGeometry& meshed = done.answer.meshed;
      if (!remedy.words.empty())
        meshed.report.remedies.insert(meshed.report.remedies.begin(), remedy.words);
      const double flattest = meshed.report.min_scaled_jacobian;
      if (!best || !(flattest <= best->report.min_scaled_jacobian)) best = std::move(meshed);
      // A mesh that was written is the one to be used.
      if (!(flattest < least_trusted_jacobian) || options.write_msh) break;
      done.failure = "an element is too flat for its stress to be trusted";
    }
    failures += "\n  " + (remedy.words.empty() ? "as asked" : remedy.words) + ": " + done.failure;
    if (done.face) face = done.face;
    too_slow = too_slow || done.out_of_time;
    if (options.mesh_file) break;  // nothing to vary
  }
  if (!best) throw_all_failed(import, failures, face);
  best->report.seconds = seconds;
  return std::move(*best);
}

}  // namespace crossgrain
