// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/material.h"

#include <iostream>

#include "tools/commands/commands.h"
#include "tools/listings/material_text.h"

namespace crossgrain {
namespace {

int list_cards(bool json) {
  std::vector<MaterialCard> cards;
  for (const std::string& name : known_cards()) cards.push_back(find_card(name, {}));
  std::cout << (json ? card_list_json(cards) : card_list_text(cards));
  return 0;
}

}  // namespace

int material(const MaterialOptions& options, const CommonOptions& common) {
  if (options.card.empty()) return list_cards(common.json);
  const MaterialCard card = find_card(options.card, std::filesystem::current_path());
  const MaterialAtConditions as_used = material_at(card, {});
  std::cout << (common.json ? card_json(card, as_used) : card_text(card, as_used));
  return 0;
}

}  // namespace crossgrain
