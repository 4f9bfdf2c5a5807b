/** Help of the command line, in English. The help of a command begins with its usage and ends with its options. */
import type { Sentence } from '../language.ts';

const common = `
  --data FOLDER     the data to use; STOVEBENCH_DATA, or the folder of this user, when left out
  --service URL     ask this running service instead; found by itself when it holds the data
  --help            this text`;

export const commandLineEn = {
  overview: () => `usage: stovebench COMMAND ...

  serve     run the service; the address to open is the last thing printed
  ports     list the serial ports
  pair      a code to let a phone in; the devices let in so far
  watch     print readings as they come
  check-board
            what is wrong with a board, its lines and its probes
  flash     put the firmware on a board
  analyse   the results of one burn record
  compare   burns of one revision against those of another
  predict   what burns say about another load
  report    a report of a burn, to print or to send
  export    burns as files: package, record, tables, workbook, Parquet
  import    import burns, tables of other loggers or notes
  publish   finished burns into a folder, as a dataset that other engines read
  backup    copy everything, while burns are recorded too
  restore   put a backup in place, once it has proven itself
  verify    check the database, every burn's readings and its results
  survey    questions to the published burns of many benches

  --version which version this is

"stovebench COMMAND --help" tells more. What a program may read is JSON on standard output; everything else is on standard
error. Exit codes: 0 done, 1 it failed, 2 the command line or a file named on it is not what it should be, 3 a check found
something wrong or a choice has to be made first.
`,
  serve: () => `usage: stovebench serve [--host ADDRESS] [--port NUMBER] [--data FOLDER]

  runs the service and prints the address to open; Ctrl-C stops it, what was recorded is safe

  --host ADDRESS    of this machine itself only (STOVEBENCH_HOST, 127.0.0.1)
  --port NUMBER     TCP port (STOVEBENCH_PORT, 4280)
  --data FOLDER     where everything is kept (STOVEBENCH_DATA)
  --help            this text
`,
  ports: () => `usage: stovebench ports

  prints {"ports": [{"path", "stablePath", "manufacturer", ...}]}

  --help            this text
`,
  phones: (p) =>
    `a phone on the same network opens ${p.addresses}; it asks for a code, shown under Settings or by "stovebench pair"`,
  nobodyComes: () =>
    'the service answers on this machine only, so no phone can come in; start it with STOVEBENCH_HOST=0.0.0.0',
  pair: () => `usage: stovebench pair [--list | --revoke ID] [--service URL | --data FOLDER]

  makes a code for the running service, good for five minutes and one phone: open one of the addresses on the phone and enter
  it there. What is printed is JSON

  --list            the devices that are let in, instead
  --revoke ID       sends a device away, instead${common}
`,
  'check-board': () => `usage: stovebench check-board PORT [--baud N] [--for SECONDS] [--service URL | --data FOLDER]

  listens to the board, asks it for an old scan and who it is, and tells what is wrong with it and what to do, as it is found;
  then the verdict, and the report as JSON. Refused while a burn records from the board. At a terminal, probes can be tested:
  type "hand 1" and take probe 1 into your hand, "fault 1" and pull it, "ice 1" or "boil 1" and put it in; "stop" ends the test,
  an empty line the check

  --baud N          speed of the port (115200)
  --for SECONDS     how long; 30 when left out, and at a terminal until an empty line
                    exit code 0 when the board is ready, 3 when something was found${common}
`,
  checkGood: (p) => `well: ${p.sentence}`,
  checkDoubtful: (p) => `look: ${p.sentence}`,
  checkBad: (p) => `wrong: ${p.sentence}`,
  checkHelp: (p) => `  what to do: ${p.help}`,
  checkWatching: () => 'the check was too short for a verdict: let it run for half a minute (--for 30)',
  checkReady: () => 'verdict: this board is ready',
  checkUsable: () => 'verdict: this board can be used, with what stands above',
  checkNotUsable: () => 'verdict: this board is not usable as it is; mend what is wrong first',
  checkTests: () => 'type hand, fault, ice or boil and the number of a probe to test it; an empty line ends the check',
  checkWhich: (p) => `"${p.typed}" is no test: for example "hand 1" or "stop"`,
  connecting: () => 'looking for the boot loader',
  writing: (p) => `writing, ${p.percent} %`,
  checking: (p) => `reading back, ${p.percent} %`,
  starting: () => 'waiting for the board to say hello',
  flash: () => `usage: stovebench flash PORT [--firmware NAME] [--service URL | --data FOLDER]

  puts the firmware on a board with an ATmega328P through its boot loader, reads it back and waits until the board is live;
  prints the board as JSON. Refused while a burn runs

  --firmware NAME   bench-board-14 (three thermocouples on amplifiers of the 14-bit kind; when left out), bench-board-19 (four on
                    the 19-bit kind), bench-board-mixed (eight channels); the build guide shows the wiring of each${common}
`,
  watch: () => `usage: stovebench watch [--service URL | --data FOLDER] [--count N]
       stovebench watch PORT [--baud N] [--count N]

  prints one JSON object a line: with a PORT the scans of the board on it, without one what a running service tells (scans,
  marks, boards). A PORT that a service has open is busy. Ctrl-C ends it

  --baud N          speed of the port (115200)
  --count N         ends after so many lines
  --data FOLDER     the data whose service to follow
  --service URL     the service to follow
  --help            this text
`,
  analyse: (p) => `usage: stovebench analyse RECORD.json [--method NAME]

  computes every result of a burn record and prints them; "-" is standard input

  --method NAME     ${p.methods}; the record's own when left out
  --schema          prints the JSON Schema of a burn record instead
  --help            this text
`,
  compare: (p) => `usage: stovebench compare A1.json A2.json ... --against B1.json B2.json ... [--against C1.json ...]

  compares the burns of one revision (A) with those of another (B), burn records all; of more revisions, given in the order in
  which they were made, the last with the one before it, as steps of one ladder

  --primary RESULT  result that carries the verdict (${p.results}, ...); chosen before the burns
  --blocks KIND     ${p.blocks}: compare within days, or within wood lots
  --worth FRACTION  relative difference to plan further days for (0.1)
  --days NUMBER     days of each revision, as said beforehand, or untilClear; what the records say when left out
  --idea TEXT       what would be changed next: adds "nextTest", how many days it takes and which to burn when
  --part TEXT       with --idea: a thing that would change, once for each
  --lot NAME:BURNS  with --idea: a wood lot and for how many burns it lasts, once for each
  --method NAME     ${p.methods}
  --as-measured     do not bring different loads, start temperatures and air to common conditions
  --language NAME   ${p.languages}
  --help            this text
`,
  predict: (p) => `usage: stovebench predict R1.json R2.json ... --load LOAD.json

  predicts time to target and dry wood for a load from burns (records) of one stove and revision

  --load LOAD.json  the load asked for; {"waterKg": 30} is enough, what is left out is taken as in the burns
  --schema          prints the schema of LOAD.json instead
  --language NAME   ${p.languages}
  --help            this text
`,
  report: (p) => `usage: stovebench report BURN [--format pdf|html|svg] [--output FILE]
       stovebench report RECORD.json ...

  BURN is the identifier of a burn, the beginning of one, its title, or "latest"; a record needs no data folder and may come
  from standard input, "-"

  --format NAME     ${p.formats} (pdf)
  --language NAME   ${p.languages}
  --paper NAME      ${p.papers} (a4)
  --output FILE     where to write it; "-" is standard output
  --force           write over a file that is there
${common}
`,
  export: (p) => `usage: stovebench export BURN ... [--format NAME] [--output FILE]
       stovebench export --all
       stovebench export --list

  BURN is the identifier of a burn, the beginning of one, its title, or "latest". Several burns go into one package; one that
  cannot be exported is left out, and stands with its reason under "leftOut" in the answer (exit code 3) and in datapackage.json

  --format NAME     ${p.formats} (package)
  --output FILE     where to write it; "-" is standard output
  --all             every burn, as a package
  --list            prints {"burns": [{"id", "title", "status", ...}]} and writes nothing
  --force           write over a file that is there
${common}
`,
  import: () => `usage: stovebench import FILE [--keep mine|theirs] [--preview]
       stovebench import FOLDER [--keep mine|theirs]

  FILE is a package or record of Stovebench, a table of any logger (CSV), or notes; "-" is standard input. All of it is
  imported, or nothing. What is here already under the same identity is not imported again; where the two differ,
  nothing is imported (exit code 3) until you say which to keep. A FOLDER made by "stovebench publish" is imported burn by
  burn: a bench made anew has them all again

  --preview         prints what the file holds and how it would be read; imports nothing
  --keep SIDE       mine or theirs, for everything that differs
  --choices FILE    JSON: [{"kind", "id", "take": "mine"|"theirs"}, ...], one by one, as --preview lists them
  --as KIND         columns or notes, where the file could be either
  --reading FILE    JSON: how to read a table or notes, as --preview prints it ("format")
                    notes: "marks": [{"line": 3, "mark": "fed", "massKg": 1.2}, ...] says what a line becomes
  --into BURN       add a table or notes to this burn; a new one when left out
  --at SECONDS      with --into: where on the clock of that burn the file begins
  --title TEXT      of the new burn
${common}
`,
  publish: () => `usage: stovebench publish FOLDER [--name TEXT]

  writes finished burns into FOLDER as partitioned Parquet files (burns, results, readings, marks, weighings), which many
  benches may share. Only what changed is written; no file is ever half there, and a run that was cut short is made good by the
  next. Rows of a burn that was removed go. Prints {"folder", "bench", "files", "burns", "unfinished", "elsewhere"}: files
  written or removed, burns that are there now, burns left out because they are not finished, and because another bench has
  published them there. Names, places and notes are published as they were entered

  --name TEXT       what this bench is called from now on
${common.slice(1)}
`,
  backup: () => `usage: stovebench backup [FOLDER]

  copies database and photos into a new FOLDER (into "backups" among the data when left out) and proves every burn in the
  copy; may be done while a burn is recorded

${common.slice(1)}
`,
  restore: () => `usage: stovebench restore BACKUP [--data FOLDER] [--replace]

  puts a backup in place: every file is checked by its checksum, the database by itself, every burn by the checksum of its
  record and of its results. Nothing is touched when anything is wrong

  --data FOLDER     where to; STOVEBENCH_DATA, or the folder of this user, when left out
  --replace         put data that are there aside, under another name
  --help            this text
`,
  verify: () => `usage: stovebench verify [--data FOLDER]
       stovebench verify BACKUP
       stovebench verify PACKAGE.zip
       stovebench verify --salvage NEW-FOLDER [--data FOLDER]

  checks the database, the readings of every burn by their checksum, and that results come out as before; prints
  {"ok", "database", "burns"}. Results of another version of the method ("otherVersion") are no damage. Exit code 3 when
  something is wrong. While a service runs, a fresh copy is checked.
  Of a package: every file of it by its checksums, and that its records can be read; prints {"ok", "burns" or "faults"}

  --data FOLDER     the data to check
  --salvage FOLDER  writes what can be read of damaged data into this new FOLDER, checks it, and adds "salvaged": rows read by
                    table, rows in which one changed bit was put right ("mended"), and what could not be read or is not what
                    was written ("leftOut"). The damaged data stay as they are
  --help            this text
`,
  survey: (p) => `usage: stovebench survey FOLDER [--result RESULT] [--start cold|hot] [--simulated] [--output FILE]

  asks the burns that benches have published into FOLDER: how far benches are from each other, whether each revision needed less on
  every bench, which bench drifts, one fuel lot on several stoves, repeatability and reproducibility by ISO 5725-2, and how often
  declared intervals held. Writes tables to standard error, a page with plots, and every answer as JSON. Needs the package
  @duckdb/node-api, and says how to add it

  --result RESULT   what is asked about (dryWoodPerBatch), such as specificFuelConsumption or timeToTarget
  --start KIND      cold or hot: the stove at lighting; the two are never pooled (cold)
  --simulated       simulated burns instead of measured ones
  --language NAME   ${p.languages}
  --output FILE     where to write the page (survey.html); "-" is standard output, without the JSON
  --force           write over a file that is there
  --help            this text
`,
  /* ---- progress, on standard error ---- */
  importing: (p) => `burns imported: ${p.done}`,
  publishing: (p) => `file ${p.done} of ${p.of}`,
  proving: (p) => `burn ${p.done} of ${p.of}`,
  working: (p) => `still working, ${p.seconds} s so far`,
  workingOn: (p) => `${p.done} of ${p.of}, ${p.seconds} s so far`,
  writtenSoFar: (p) => `written so far: ${p.megabytes} MB`,
  moreIssues: (p) => `and ${p.count} more`,
  leftOut: (p) => `left out: ${p.title}. ${p.reason}`,
  written: (p) => `written: ${p.file}`,
  asking: (p) => `asking the service at ${p.address}`,
} satisfies Record<string, Sentence>;
