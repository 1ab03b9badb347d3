// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: between the kernel's small types and Eigen's.

#include <Eigen/Core>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>
#include <gp_Vec.hxx>

namespace crossgrain {

inline Eigen::Vector3d vector_from(const gp_XYZ& v) { return {v.X(), v.Y(), v.Z()}; }
inline Eigen::Vector3d vector_from(const gp_Pnt& p) { return vector_from(p.XYZ()); }
inline Eigen::Vector3d vector_from(const gp_Vec& v) { return vector_from(v.XYZ()); }
inline Eigen::Vector3d vector_from(const gp_Dir& d) { return vector_from(d.XYZ()); }

}  // namespace crossgrain
