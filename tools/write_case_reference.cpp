// SPDX-License-Identifier: GPL-3.0-or-later
// Brings the reference of case-file keys in a Markdown document up to date: everything from its
// heading on is written anew from the parser's own table.
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>

#include "cases/case_file/case_file.h"

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: write_case_reference DOCUMENT.md\n";
    return 2;
  }
  std::ostringstream old;
  old << std::ifstream(argv[1]).rdbuf();
  const std::string reference = crossgrain::case_key_reference();
  const std::string heading = reference.substr(0, reference.find('\n'));
  const std::string introduction = old.str().substr(0, old.str().find(heading));
  std::ofstream document(argv[1]);
  document << introduction << reference;
  document.close();
  if (!document) {
    std::cerr << argv[1] << ": cannot be written\n";
    return 3;
  }
  return 0;
}
