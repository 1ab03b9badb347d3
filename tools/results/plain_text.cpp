// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/plain_text.h"

#include <algorithm>
#include <boost/locale/utf.hpp>
#include <cctype>
#include <cstdint>
#include <cstdlib>
#include <iterator>

namespace crossgrain {
namespace {

namespace utf = boost::locale::utf;
constexpr std::uint32_t replacement = 0xFFFD;

bool turns_writing(std::uint32_t c) {
  return (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x200E ||
         c == 0x200F || c == 0x061C;
}

bool control(std::uint32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029;
}

bool noncharacter(std::uint32_t c) {
  return (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);
}

std::string replace_all(std::string text, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) {
    text.replace(at, from.size(), to);
  }
  return text;
}

bool is_number(const std::string& text) {
  char* end = nullptr;
  std::strtod(text.c_str(), &end);
  return end == text.c_str() + text.size();
}

bool word_character(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) || static_cast<unsigned char>(c) >= 0x80;
}

}  // namespace

std::string plain_text(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  const char* at = text.data();
  const char* const end = at + text.size();
  while (at != end) {
    const char* const start = at;
    std::uint32_t c = utf::utf_traits<char>::decode(at, end);
    if (c == utf::illegal || c == utf::incomplete) {
      // One mark for each byte that starts nothing valid; a good character right after it is kept.
      at = start + 1;
      c = replacement;
    }
    if (turns_writing(c) || noncharacter(c)) continue;
    utf::utf_traits<char>::encode(control(c) ? ' ' : c, std::back_inserter(out));
  }
  return out;
}

std::string markdown_text(std::string_view text) {
  const std::string plain = plain_text(text);
  std::string out;
  out.reserve(plain.size());
  for (std::size_t i = 0; i < plain.size(); ++i) {
    const char c = plain[i];
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else if (c == '_') {
      // Inside a word an underscore is plain; file and material names stay readable on paper.
      const bool inside = i > 0 && i + 1 < plain.size() && word_character(plain[i - 1]) &&
                          word_character(plain[i + 1]);
      out += inside ? "_" : "\\_";
    } else if (std::string_view("\\`*[]|~$").find(c) != std::string_view::npos) {
      out += '\\';
      out += c;
    } else {
      out += c;
    }
  }
  // Some viewers turn bare addresses into links.
  out = replace_all(std::move(out), "://", "&#58;//");
  return replace_all(std::move(out), "www.", "www&#46;");
}

std::string xml_text(std::string_view text) {
  std::string out = replace_all(plain_text(text), "&", "&amp;");
  out = replace_all(std::move(out), "<", "&lt;");
  out = replace_all(std::move(out), ">", "&gt;");
  out = replace_all(std::move(out), "\"", "&quot;");
  return replace_all(std::move(out), "'", "&apos;");
}

std::string csv_field(std::string_view text) {
  std::string plain = plain_text(text);
  if (!plain.empty() && std::string_view("=+-@").find(plain.front()) != std::string_view::npos &&
      !is_number(plain)) {
    plain.insert(plain.begin(), '\'');
  }
  if (plain.find_first_of(",\"") == std::string::npos) return plain;
  return '"' + replace_all(std::move(plain), "\"", "\"\"") + '"';
}

std::string shell_word(std::string_view text) {
  const std::string plain = plain_text(text);
  const auto usual = [](char c) {
    return word_character(c) || std::string_view("._-/+=:,").find(c) < std::string::npos;
  };
  if (!plain.empty() && std::all_of(plain.begin(), plain.end(), usual)) return plain;
  return "'" + replace_all(plain, "'", "'\\''") + "'";
}

std::string file_name_part(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool keep = std::isalnum(static_cast<unsigned char>(c)) != 0;
    if (keep) out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (!keep && !out.empty() && out.back() != '_') out += '_';
    if (out.size() == 40) break;
  }
  while (!out.empty() && out.back() == '_') out.pop_back();
  return out.empty() ? "case" : out;
}

}  // namespace crossgrain
