#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Solve one problem of anisotropic elasticity with GetFEM (Debian package python3-getfem).

usage: reference_solution.py PROBLEM ANSWER

PROBLEM holds blocks "name rows columns" followed by the numbers row by row:
  nodes       n x 3    positions [mm]
  tetrahedra  t x 10   node numbers: corners, then the middles of 01 12 20 03 13 23
  held        h x 1    nodes that do not move
  pressed     p x 1    nodes of the surface under pressure
  pressure    1 x 1    [MPa]
  constants   1 x 9    E1 E2 E3 [MPa] nu12 nu13 nu23 [-] G23 G13 G12 [MPa]
  axes        3 x 3    column j: material axis j in global components
ANSWER receives blocks of the same form: energy [N mm] and displacement, n x 3 [mm].

Nothing of the program under test is used: compliance, rotation of the fourth-order tensor,
elements, quadrature, load and solution are this script's or the library's own.
"""

import sys

try:
    import getfem
    import numpy as np
    from scipy.sparse import csc_matrix
    from scipy.sparse.linalg import spsolve
except ImportError as missing:
    sys.exit(f"{missing}: install the Debian package python3-getfem")

# The library numbers a quadratic tetrahedron's nodes along its lattice: x fastest.
LATTICE_ORDER = [0, 4, 1, 6, 5, 2, 7, 8, 9, 3]


def read_blocks(path):
    words = open(path, encoding="ascii").read().split()
    blocks, at = {}, 0
    while at < len(words):
        name, rows, columns = words[at], int(words[at + 1]), int(words[at + 2])
        end = at + 3 + rows * columns
        blocks[name] = np.array(words[at + 3:end], dtype=float).reshape(rows, columns)
        at = end
    return blocks


def stiffness_tensor(constants, axes):
    """Fourth-order tensor in global axes [MPa] from the engineering constants."""
    e1, e2, e3, nu12, nu13, nu23, g23, g13, g12 = constants
    normal = np.linalg.inv(np.array([[1 / e1, -nu12 / e1, -nu13 / e1],
                                     [-nu12 / e1, 1 / e2, -nu23 / e2],
                                     [-nu13 / e1, -nu23 / e2, 1 / e3]]))
    tensor = np.zeros((3, 3, 3, 3))
    for i in range(3):
        for j in range(3):
            tensor[i, i, j, j] = normal[i, j]
    for i, j, g in ((1, 2, g23), (0, 2, g13), (0, 1, g12)):
        for k, l in ((i, j), (j, i)):
            tensor[i, j, k, l] = tensor[j, i, k, l] = g
    return np.einsum("ia,jb,kc,ld,abcd->ijkl", axes, axes, axes, axes, tensor)


def faces_within(mesh, nodes, marked):
    """Outer faces of the mesh, all of whose nodes are marked."""
    pids = mesh.pid_from_coords(nodes[marked].T)
    outer = {tuple(face) for face in mesh.outer_faces().T}
    return np.array([f for f in mesh.faces_from_pid(pids).T if tuple(f) in outer]).T


def solve(problem):
    nodes = problem["nodes"]
    tetrahedra = problem["tetrahedra"].astype(int)[:, LATTICE_ORDER]
    mesh = getfem.Mesh("empty", 3)
    mesh.add_convex(getfem.GeoTrans("GT_PK(3,2)"), nodes[tetrahedra].transpose(2, 1, 0))
    held, pressed = 1, 2
    for region, name in ((held, "held"), (pressed, "pressed")):
        mesh.set_region(region, faces_within(mesh, nodes, problem[name].astype(int).ravel()))

    space = getfem.MeshFem(mesh, 3)
    space.set_fem(getfem.Fem("FEM_PK(3,2)"))
    # On curved elements the integrand is rational; degree 8 is good to about 1e-11 here.
    rule = getfem.MeshIm(mesh, getfem.Integ("IM_TETRAHEDRON(8)"))
    none = np.zeros(space.nbdof())
    tensor = stiffness_tensor(problem["constants"].ravel(), problem["axes"]).ravel()
    stiffness = getfem.asm_generic(
        rule, 2, "(Reshape(C,3,3,3,3):Sym(Grad_u)):Grad_Test_u", -1,
        "u", True, space, none, "C", False, tensor)
    load = getfem.asm_generic(
        rule, 1, "-p*(Normal.Test_u)", pressed,
        "u", True, space, none, "p", False, problem["pressure"].ravel())

    # The library's own direct solvers crash in Debian 12; SciPy, which it brings, does not.
    starts, rows = stiffness.csc_ind()
    stiffness = csc_matrix((stiffness.csc_val(), rows, starts))
    free = np.setdiff1d(np.arange(space.nbdof()), space.basic_dof_on_region(held))
    unknowns = none.copy()
    unknowns[free] = spsolve(stiffness[free][:, free], load[free])

    of_element, _ = space.basic_dof_from_cvid(np.arange(len(tetrahedra)))
    displacement = np.full_like(nodes, np.nan)
    displacement[tetrahedra.ravel()] = unknowns[of_element].reshape(-1, 3)
    return 0.5 * unknowns @ (stiffness @ unknowns), displacement


def write_block(out, name, values):
    values = np.atleast_2d(values)
    out.write(f"{name} {values.shape[0]} {values.shape[1]}\n")
    np.savetxt(out, values, fmt="%.17g")


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit("usage: reference_solution.py PROBLEM ANSWER")
    energy, displacement = solve(read_blocks(sys.argv[1]))
    with open(sys.argv[2], "w", encoding="ascii") as out:
        write_block(out, "energy", energy)
        write_block(out, "displacement", displacement)
