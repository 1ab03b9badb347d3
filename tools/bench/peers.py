#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Solve the system that crossgrain_bench left in a directory with PETSc, one way of its solvers a call:

    mpiexec -n RANKS peers.py DIRECTORY WAY [TOLERANCE]

Prints one JSON object: seconds of set-up and solve, iterations, the true relative residual, peak memory of all ranks
together. Assembling the matrix is not counted.
"""
import json
import os
import resource
import sys
import time

import petsc4py

petsc4py.init([sys.argv[0]])
import numpy as np  # noqa: E402
import scipy.sparse  # noqa: E402
from petsc4py import PETSc  # noqa: E402

CG = {"ksp_type": "cg", "ksp_norm_type": "unpreconditioned"}
GAMG = CG | {"pc_type": "gamg", "pc_gamg_agg_nsmooths": "1", "mg_levels_ksp_type": "chebyshev",
             "mg_levels_pc_type": "jacobi", "mg_levels_ksp_max_it": "3"}
HYPRE = CG | {"pc_type": "hypre", "pc_hypre_type": "boomeramg", "pc_hypre_boomeramg_nodal_coarsen": "1",
              "pc_hypre_boomeramg_vec_interp_variant": "2", "pc_hypre_boomeramg_coarsen_type": "HMIS",
              "pc_hypre_boomeramg_interp_type": "ext+i", "pc_hypre_boomeramg_no_CF": "1",
              "pc_hypre_boomeramg_agg_nl": "0"}
DIRECT = {"ksp_type": "preonly", "pc_type": "cholesky"}
# By hand: 3x3 blocks on the quadratic level; the corners' matrix is given, its making not counted.
P_MULTIGRID = CG | {"pc_type": "mg", "pc_mg_levels": "2", "pc_mg_galerkin": "none",
                    "mg_levels_ksp_type": "chebyshev", "mg_levels_ksp_max_it": "3", "mg_levels_pc_type": "pbjacobi",
                    "mg_levels_esteig_ksp_type": "cg", "mg_coarse_ksp_type": "preonly", "mg_coarse_pc_type": "cholesky"}
# The grid that each way was chosen from: options that were tried are rows of their own.
WAYS = {
    "gamg": GAMG | {"pc_gamg_threshold": "0.0"},
    "gamg-0.01": GAMG | {"pc_gamg_threshold": "0.01"},
    "gamg-0.02": GAMG | {"pc_gamg_threshold": "0.02"},
    "hypre-0.5": HYPRE | {"pc_hypre_boomeramg_strong_threshold": "0.5"},
    "hypre-0.7": HYPRE | {"pc_hypre_boomeramg_strong_threshold": "0.7"},
    "cholmod": DIRECT | {"pc_factor_mat_solver_type": "cholmod"},
    "mumps": DIRECT | {"pc_factor_mat_solver_type": "mumps", "mat_mumps_icntl_7": "5"},
    "p-multigrid-cholmod": P_MULTIGRID | {"mg_coarse_pc_factor_mat_solver_type": "cholmod"},
    "p-multigrid-mumps": P_MULTIGRID | {"mg_coarse_pc_factor_mat_solver_type": "mumps"},
}


def array(directory, name, kind):
    return np.fromfile(os.path.join(directory, name), dtype=kind)


def mine(rows):
    """First and last of this rank's rows."""
    size, rank = PETSc.COMM_WORLD.size, PETSc.COMM_WORLD.rank
    return rows * rank // size, rows * (rank + 1) // size


def stiffness(directory, kind):
    start, column = array(directory, "row_start", np.int32), array(directory, "column", np.int32)
    blocks = np.memmap(os.path.join(directory, "blocks"), dtype=np.float64, mode="r")
    nodes = len(start) - 1
    begin, end = mine(nodes)
    k0, k1 = start[begin], start[end]
    size = ((3 * (end - begin), 3 * nodes), (3 * (end - begin), 3 * nodes))
    own_blocks = np.asarray(blocks[9 * int(k0):9 * int(k1)])
    rows = start[begin:end + 1] - k0, column[k0:k1]
    if kind == "baij":
        return PETSc.Mat().createBAIJ(size, bsize=3, csr=(*rows, own_blocks))
    own = scipy.sparse.bsr_matrix((own_blocks.reshape(-1, 3, 3), rows[1], rows[0]),
                                  shape=(3 * (end - begin), 3 * nodes)).tocsr()
    A = PETSc.Mat().createAIJ(size, bsize=3, csr=(own.indptr, own.indices, own.data))
    A.setOption(PETSc.Mat.Option.SYMMETRIC, True)
    A.setOption(PETSc.Mat.Option.SPD, True)
    if kind == "aij":
        return A
    B = A.convert(kind)
    B.setOption(PETSc.Mat.Option.SYMMETRIC, True)
    B.setOption(PETSc.Mat.Option.SPD, True)
    return B


def interpolation(directory):
    start, column = array(directory, "p_start", np.int32), array(directory, "p_column", np.int32)
    value = array(directory, "p_value", np.float64)
    corners, nodes = int(column.max()) + 1, len(start) - 1
    (begin, end), (c_begin, c_end) = mine(nodes), mine(corners)
    P = PETSc.Mat().create()
    P.setSizes(((3 * (end - begin), 3 * nodes), (3 * (c_end - c_begin), 3 * corners)))
    P.setType("aij")
    nodal = scipy.sparse.csr_matrix((value[start[begin]:start[end]], column[start[begin]:start[end]],
                                     start[begin:end + 1] - start[begin]), shape=(end - begin, corners))
    own = scipy.sparse.kron(nodal, scipy.sparse.identity(3), format="csr")
    csr = own.indptr.astype(np.int32), own.indices.astype(np.int32), own.data
    P.setBlockSizes(3, 3)
    P.setPreallocationCSR(csr)
    P.assemble()
    return P


def vector(directory, name, A):
    x = A.createVecRight()
    begin, end = x.getOwnershipRange()
    x.array[:] = array(directory, name, np.float64)[begin:end]
    return x


def main():
    directory, way = sys.argv[1], sys.argv[2]
    tolerance = float(sys.argv[3]) if len(sys.argv) > 3 else 1e-8
    options = WAYS[way]
    for name, value in options.items():
        PETSc.Options().setValue(name, value)
    by_hand = way.startswith("p-multigrid")
    A = stiffness(directory, "sbaij" if way == "mumps" else "aij")
    b = vector(directory, "forces", A)
    if "gamg" in way or "hypre" in way:
        near = PETSc.NullSpace().createRigidBody(coordinates(directory, A))
        A.setNearNullSpace(near)
    if by_hand:
        P = interpolation(directory)
        corners = A.ptap(P)
        corners.setOption(PETSc.Mat.Option.SPD, True)
        A = stiffness(directory, "baij")
    x = b.duplicate()
    PETSc.COMM_WORLD.barrier()

    used, started = cpu(), time.perf_counter()
    ksp = PETSc.KSP().create()
    ksp.setOperators(A)
    ksp.setTolerances(rtol=tolerance, max_it=2000)
    ksp.setFromOptions()
    if by_hand:
        mg = ksp.getPC()
        mg.setMGInterpolation(1, P)
        mg.getMGCoarseSolve().setOperators(corners)
    ksp.setUp()
    set_up = time.perf_counter() - started
    ksp.solve(b, x)
    PETSc.COMM_WORLD.barrier()
    seconds = time.perf_counter() - started
    used = total(cpu() - used)

    r = A.createVecLeft()
    A.mult(x, r)
    r.axpy(-1.0, b)
    residual = r.norm() / b.norm()
    row = {"solver": "PETSc", "way": way, "ranks": PETSc.COMM_WORLD.size, "seconds": seconds,
           "seconds_set_up": set_up, "cpu_seconds": used, "iterations": ksp.getIterationNumber(),
           "residual": residual, "energy_Nmm": 0.5 * b.dot(x),
           "peak_GiB": total(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1048576.0), "options": options}
    # A factorisation that ran out of memory ends here without an error of its own.
    if not residual <= 2.0 * tolerance:
        del row["seconds"]
        row["residual"] = None
        row["trouble"] = f"no solution (PETSc: {ksp.getConvergedReason()})"
    if PETSc.COMM_WORLD.rank == 0:
        print(json.dumps(row), flush=True)


def coordinates(directory, A):
    x = vector(directory, "coordinates", A)
    x.setBlockSize(3)
    return x


def cpu():
    used = resource.getrusage(resource.RUSAGE_SELF)
    return used.ru_utime + used.ru_stime


def total(value):
    """Sum over the ranks."""
    each = PETSc.Vec().createMPI((1, PETSc.DECIDE))
    each.set(value)
    return each.sum()


main()
