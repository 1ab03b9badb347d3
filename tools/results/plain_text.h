// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace crossgrain {

// Names come out of STEP and case files, which may hold anything. Everything that is written passes
// through one of these, so that a name can neither break a file nor act in whatever shows it.

/// Valid UTF-8 on one line: broken sequences become U+FFFD, control characters and line breaks a
/// space; characters that turn the direction of writing, and those XML cannot hold, are dropped.
std::string plain_text(std::string_view text);

/// plain_text with everything that means something in Markdown or HTML made to stand for itself.
std::string markdown_text(std::string_view text);

/// plain_text with & < > " ' as entities.
std::string xml_text(std::string_view text);

/// One field of a CSV row (RFC 4180), quoted where needed. A leading = + - @ that is no number gets
/// an apostrophe before it, since spreadsheets would run it as a formula.
std::string csv_field(std::string_view text);

/// plain_text as one word of a shell's command line, in single quotes if it holds more than a usual
/// file name.
std::string shell_word(std::string_view text);

/// For a file name: lower-case ASCII letters, digits and single underscores, at most 40; "case" if
/// nothing is left.
std::string file_name_part(std::string_view text);

}  // namespace crossgrain
