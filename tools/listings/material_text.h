// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "materials/conditions/material.h"

namespace crossgrain {

/// One line a card: name, title, the two strengths and moduli a designer looks for first.
std::string card_list_text(const std::vector<MaterialCard>& cards);
std::string card_list_json(const std::vector<MaterialCard>& cards);

/// A card as the program will use it at 23 degC, dry, short-term: every number with its range and
/// standing.
std::string card_text(const MaterialCard& card, const MaterialAtConditions& material);
std::string card_json(const MaterialCard& card, const MaterialAtConditions& material);

}  // namespace crossgrain
