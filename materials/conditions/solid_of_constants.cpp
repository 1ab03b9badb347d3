// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/solid_of_constants.h"

namespace crossgrain {
namespace {

SolidMaterial layered_solid(const LayeredConstants& c, double strength_kept, double modulus_kept) {
  const TransverselyIsotropicConstants elastic{.E_layer = c.E_layer.value * modulus_kept,
                                               .E_build = c.E_build.value * modulus_kept,
                                               .nu_12 = c.nu_12.value,
                                               .nu_13 = c.nu_13.value,
                                               .G_build = c.G_build.value * modulus_kept};
  return {.elastic = orthotropic(elastic),
          .thermal_expansion = {c.cte_layer.value, c.cte_layer.value, c.cte_build.value},
          .density = c.density.value,
          .strength = LayeredStrength{.Xt = c.Xt.value * strength_kept,
                                      .Xc = c.Xc.value * strength_kept,
                                      .Zt = c.Zt.value * strength_kept,
                                      .Zc = c.Zc.value * strength_kept,
                                      .Sz = c.Sz.value * strength_kept}};
}

SolidMaterial isotropic_solid(const IsotropicConstants& c, MaterialKind kind, double strength_kept,
                              double modulus_kept) {
  const double strength = c.strength.value * strength_kept;
  SolidMaterial material{.elastic = isotropic(c.E.value * modulus_kept, c.nu.value),
                         .thermal_expansion = Eigen::Vector3d::Constant(c.cte.value),
                         .density = c.density.value,
                         .strength = DuctileStrength{strength}};
  if (kind == MaterialKind::isotropic_brittle) material.strength = BrittleStrength{strength};
  return material;
}

}  // namespace

SolidMaterial solid_of(const SolidConstants& constants, MaterialKind kind, double strength_kept,
                       double modulus_kept) {
  if (const auto* layered = std::get_if<LayeredConstants>(&constants))
    return layered_solid(*layered, strength_kept, modulus_kept);
  return isotropic_solid(std::get<IsotropicConstants>(constants), kind, strength_kept,
                         modulus_kept);
}

}  // namespace crossgrain
