#include "cli/commands.hpp"

#include <limits>

namespace pullproof::cli {
namespace {

constexpr std::size_t any = std::numeric_limits<std::size_t>::max();

constexpr Command commands[] = {
    {"check", "FILE...", 0, any, "format full brief edition-of-case remedies apply list jobs from-case rules", "check cases: what fails, and what would do",
     "Reads each case, checks it to the edition that it names, and prints a report:\n"
     "what fails and what to change, advice, what is open because the case or the\n"
     "rules do not say enough, what passes, and the cautions. FILE may be - for\n"
     "standard input, or a folder: every .toml file in it and below it is a case then.\n"
     "`pullproof keys` lists what a case may say.\n"
     "\n"
     "For each fail the smallest change that mends it is looked for by changing the\n"
     "case in memory and running every check again: verified, when nothing fails\n"
     "then; partial, when this check passes and something else fails. --apply writes\n"
     "the verified changes into the case and leaves all else of it as it is.\n"
     "\n"
     "Several cases are checked beside one another and reported in order; what they\n"
     "come to goes to standard error. An interrupt ends it between two cases and says\n"
     "with which to go on; the exit status is 130 then.",
     "  pullproof check case.toml\n"
     "  pullproof check --apply case.toml\n"
     "  pullproof check --full case.toml\n"
     "  pullproof check --format json case.toml other.toml\n"
     "  pullproof check --brief jobs\n"
     "  find jobs -name '*.toml' -mtime -7 | pullproof check --list -\n"
     "  pullproof check --edition us-2020 case.toml\n"
     "  pullproof check --edition town.toml case.toml\n",
     check, true},
    {"size", "FILE", 1, 1, "output-of-size format at-least stock ignore-advice edition-of-case rules", "the smallest sizes that pass, for what is left open",
     "Works out every size that the case leaves out and a check asks for: devices,\n"
     "conductors, grounds, raceways, boxes, disconnects, control cables and their\n"
     "sources. Takes the smallest with which all checks pass together, the device\n"
     "first, then the conductors, the ground, and what they run in; no earlier one\n"
     "can be smaller. Sizes that are given stay. Advice such as an advised voltage\n"
     "drop is heeded where sizes can. -o writes the completed case, with comments and\n"
     "order kept; -o - prints it. A limit holds for every part that has the key, or\n"
     "for one: \"whip: raceway.size=1/2\".",
     "  pullproof size case.toml\n"
     "  pullproof size case.toml -o sized.toml\n"
     "  pullproof size --at-least \"wire.size=12 AWG\" case.toml\n"
     "  pullproof size --stock \"wire.size=12 AWG,8 AWG\" case.toml\n",
     size, true},
    {"reach", "FILE", 1, 1, "format ignore-advice edition-of-case rules", "how far each run may go, for each size",
     "For each circuit and control run, lists the sizes that would do with the longest\n"
     "run that passes, in feet and metres, and what stops it there: the drop, the\n"
     "lowest voltage of the device, its maker's length. The longest stretch of the run\n"
     "is taken longer and shorter, everything else stays; what has to change along\n"
     "with a size stands under it. Advice such as an advised drop counts, unless\n"
     "--ignore-advice is given. The exit status is that of `check` on the case.",
     "  pullproof reach case.toml\n"
     "  pullproof reach --ignore-advice case.toml\n"
     "  pullproof reach --format json case.toml\n",
     reach, true},
    {"compare", "CASE OTHER [EDITION]", 2, 3, "format edition-of-case rules", "what differs between two cases or editions",
     "Checks two cases, or one case under two editions, and prints the answers that\n"
     "differ and the numbers that moved, side by side. OTHER is a second case; or an\n"
     "edition or amendment file, which the case is held against as it is; with a\n"
     "further EDITION the case is checked to the one and to the other. The exit\n"
     "status is the worse of the two sides.",
     "  pullproof compare case.toml thicker-wire.toml\n"
     "  pullproof compare case.toml us-2020\n"
     "  pullproof compare case.toml us-2017 us-2023\n"
     "  pullproof compare case.toml town.toml\n",
     compare, true},
    {"report", "FILE", 1, 1, "output-of-report format-of-report force paper remedies edition-of-case rules", "a report to file with a permit, or to print",
     "Checks a case as `check` does and writes a report of it: the job, what was\n"
     "assumed and what is open, every finding with its working, figures, schedules\n"
     "with a material list, a field test sheet, cautions, and lines to sign. The\n"
     "name of the output says in which form: .html, .pdf, .md, .txt or .json. FILE\n"
     "may be - for standard input.",
     "  pullproof report case.toml -o case.html\n"
     "  pullproof report case.toml -o permit.pdf --paper a4 --force\n"
     "  pullproof report case.toml -o - --format md\n",
     report, true},
    {"stream", "[FILE]", 0, 1, "full edition-of-case from-line jobs rules", "check a case a line, for engines that pipe lines",
     "Reads JSON Lines from FILE or standard input, each line a case: its TOML as a\n"
     "JSON text, or {\"case\": \"...\", \"name\": \"...\"}. Writes one line for each, in\n"
     "order: {\"format\": ..., \"line\": 7, \"report\": {...}}. A line that cannot be read\n"
     "gives a report that says so. Memory does not grow with the number of lines. What\n"
     "it came to goes to standard error. Without --full a report leaves out the\n"
     "working and what does not apply. An interrupt ends it between two lines and\n"
     "says with which to go on; the exit status is 130 then.\n"
     "Amendment files are looked for from the folder it runs in.",
     "  pullproof stream <cases.jsonl >reports.jsonl\n"
     "  pullproof stream --from 120001 cases.jsonl >>reports.jsonl\n"
     "  parallel --pipe pullproof stream --jobs 1 <cases.jsonl >reports.jsonl\n",
     stream, true},
    {"explain", "[CHECK]", 0, 1, "edition amendment rules", "what a check looks at, and what it rests on",
     "Prints what a check asks and why, its sum, the keys of a case that it reads with\n"
     "what they mean, every table and rule that it rests on with its clause in each\n"
     "edition, its basis and source, and what changes from one edition to the next.\n"
     "Without CHECK, lists the checks.",
     "  pullproof explain\n"
     "  pullproof explain ampacity\n"
     "  pullproof explain ampacity --edition us-2017\n"
     "  pullproof explain drop-branch --amendment town.toml\n",
     explain},
    {"new", "[APPLIANCE]", 0, any, "output-of-new force edition rules", "write a first case, from a few questions or without",
     "Without APPLIANCE, asks a few questions in plain words, checks every answer as\n"
     "it comes, proposes the smallest sizes that pass, and writes the case. With it,\n"
     "writes a case for that appliance as it usually is, without a question. Either\n"
     "is commented, and ready for `pullproof check`. Questions go to standard error\n"
     "and answers come from standard input; when that ends early, nothing is written.\n"
     "`pullproof rules show starters` lists the appliances.",
     "  pullproof new\n"
     "  pullproof new -o charger.toml vehicle charger\n"
     "  pullproof new \"heat pump\" | pullproof check -\n",
     new_case},
    {"keys", "[TABLE]", 0, 1, "", "every key that a case may have",
     "Lists the keys of a case with what each means, what is written there, and its\n"
     "range. TABLE narrows the list: circuit, circuit.wire, raceway; so does a key.",
     "  pullproof keys\n"
     "  pullproof keys breaker\n"
     "  pullproof keys raceway.ambient\n",
     keys},
    {"schema", "", 0, 0, "", "the JSON Schema of a case, for editors",
     "Prints a JSON Schema (draft 2020-12) of the case, made from what the reader\n"
     "itself knows. An editor that knows TOML and JSON Schema completes keys and words\n"
     "with it and marks what is wrong while you type.",
     "  pullproof schema > case.schema.json\n",
     schema},
    {"completions", "SHELL", 1, 1, "", "what bash, zsh or fish completes",
     "Prints a script that teaches a shell (bash, zsh or fish) the commands, their\n"
     "options and what may follow them. An installed pullproof has brought it along.",
     "  pullproof completions bash > pullproof.bash\n"
     "  pullproof completions zsh > _pullproof\n"
     "  pullproof completions fish > pullproof.fish\n",
     completions},
    {"manual", "", 0, 0, "", "the manual page, as `man` reads it",
     "Prints the manual page of the program in the language of manual pages. An\n"
     "installed pullproof has brought it along: `man pullproof`.",
     "  pullproof manual > pullproof.1\n",
     manual},
    {"rules list", "[EDITION]", 0, 1, "rules", "the editions, or the tables and rules of one",
     "Lists the editions and amendments with what each lies on; or, for one of them\n"
     "(an id or an amendment file), its tables and rules with their clauses.",
     "  pullproof rules list\n"
     "  pullproof rules list us-2020\n",
     rules_list},
    {"rules show", "NAME", 1, 1, "filters row format edition amendment rules", "a table or rule as an edition has it",
     "Prints a table or rule of an edition, with everything that the edition\n"
     "inherits. Cells that a later edition or an amendment changed, and cells that\n"
     "rest on something weaker than the table, are marked and listed below with the\n"
     "line of the rule file, the basis and the source.\n"
     "\n"
     "--COLUMN VALUE looks something up: any column of the table by its name, or what\n"
     "the trade calls it, such as --size, --type, --material, --temperature,\n"
     "--voltage, --ambient. Several narrow it further. A table of bands is searched\n"
     "with a value: the first band that reaches it. Each row found is printed with\n"
     "its clause, basis, source, and the line of the rule file it comes from.",
     "  pullproof rules show ampacity\n"
     "  pullproof rules show ampacity --size 6 --material copper\n"
     "  pullproof rules show ambient-correction --ambient \"105 °F\"\n"
     "  pullproof rules show raceway-dimensions --type EMT --size 3/4 --format json\n"
     "  pullproof rules show branch-drop --edition pine-cove\n"
     "  pullproof rules show branch-drop --amendment town.toml\n",
     rules_show},
    {"rules diff", "A B", 2, 2, "rules", "what differs between two editions",
     "Compares two editions or amendments (ids or amendment files): entries that one\n"
     "of them lacks, clauses and other fields, and cells.",
     "  pullproof rules diff us-2020 us-2023\n"
     "  pullproof rules diff us-2023 town.toml\n",
     rules_diff},
    {"rules coverage", "[NAME]", 0, 1, "format-or-markdown rules", "what is covered, in which editions, on what basis",
     "Lists every check, table and rule that the program knows: what it is about,\n"
     "what it rests on, its clause in each edition or that the edition is not covered,\n"
     "what says something new there, and which checks ask for it. All of it is made\n"
     "from the rule data. NAME narrows it to a check and what it asks, or to a table\n"
     "or rule and who asks for it.",
     "  pullproof rules coverage\n"
     "  pullproof rules coverage gfci\n"
     "  pullproof rules coverage --format md\n",
     rules_coverage},
};

}  // namespace

std::span<const Command> all_commands() { return commands; }

}  // namespace pullproof::cli
