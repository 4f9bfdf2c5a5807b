/**
 * Every refusal and failure the service can utter, in English: what is wrong, then what to do about it.
 * The troubleshooting section of the README lists the same codes; a test compares the two.
 */
import { benchErrorsEn } from './bench-errors.en.ts';
import { dataErrorsEn } from './data-errors.en.ts';
import { type Sentence, writeNumber } from './language.ts';

const kg = (value: string | number | undefined) => `${writeNumber('en', Number(value), 2)} kg`;
/** @param ratio milliseconds of the board's clock that go by in one millisecond */
function clockWords(ratio: number): string {
  if (ratio === 0) return 'stands still';
  if (ratio < 0) return 'runs backwards';
  if (ratio > 500 && ratio < 2000) return 'counts microseconds where milliseconds are meant';
  if (ratio > 0.0005 && ratio < 0.002) return 'counts seconds where milliseconds are meant';
  return ratio > 1
    ? `runs ${writeNumber('en', ratio, 0)} times too fast`
    : `runs ${writeNumber('en', 1 / ratio, 0)} times too slowly`;
}
const unitWords: Record<string, string> = { Cel: '°C', kg: 'kg', Pa: 'Pa', '%': '%' };

export const errorsEn = {
  ...benchErrorsEn,
  ...dataErrorsEn,

  /* ---- starting the service ---- */
  'service/node-unfit': (p) =>
    `This is Node ${p.found}; the service needs Node 24 (up to 26.3). Start it with "npm start", which finds or installs the right one.`,
  'service/part-missing': (p) =>
    `A part of the service could not be loaded (${p.part}: ${p.raw}). Run "npm ci" in the project folder and start again.`,
  'service/port-unreadable': (p) =>
    `STOVEBENCH_PORT is "${p.value}", which is not a TCP port. Give a whole number from 1 to 65535, for example 4280.`,
  'service/time-scale-unreadable': (p) =>
    `STOVEBENCH_TIME_SCALE is "${p.value}", which is not a speed. Give a number above 0 and up to 10000, for example 60.`,
  'service/port-taken': (p) =>
    `Port ${p.port} on ${p.host} is already used by another program. Close that program, or choose another port: STOVEBENCH_PORT=${p.other} npm start.`,
  'service/port-forbidden': (p) =>
    `This system does not let you open port ${p.port} on ${p.host}. Choose one above 1023: STOVEBENCH_PORT=4280 npm start.`,
  'service/address-unknown': (p) =>
    `This machine has no address "${p.host}". Use 127.0.0.1 (or leave STOVEBENCH_HOST unset).`,

  /* ---- data on disk ---- */
  'store/folder-not-writable': (p) =>
    `The data folder ${p.folder} cannot be written (${p.raw}). Give yourself the right to write there, or name another folder: STOVEBENCH_DATA=/a/folder npm start. Nothing was changed.`,
  'store/in-use': (p) =>
    `Another copy of the service is already using ${p.folder}${p.address ? ` (open ${p.address} instead)` : ''}${p.processId ? `; it is process ${p.processId}` : ''}. Use that one, or stop it first.`,
  'store/newer': (p) =>
    `The data in ${p.folder} were written by a newer version (layout ${p.found}; this version knows ${p.known}). Install the newer version again; nothing was changed.`,
  'store/damaged': (p) =>
    `The database ${p.file} is damaged (${p.raw}). Keep a copy of the whole folder, then put back the newest file from its "backups" folder. Nothing was changed.`,
  'store/full': () =>
    'The disk is full, so this could not be kept. Make room on the disk; what was kept before is safe, and recording goes on by itself.',
  'store/not-finite': (p) =>
    `${p.what} is not a number that can be kept (${p.value}). Send whole counts and finite times.`,
  'store/conflict': (p) =>
    `Somebody else changed this meanwhile: you started from version ${p.expected}, the newest is ${p.found}. Look at both and save again.`,

  /* ---- requests ---- */
  'request/not-found': (p) => `There is nothing at ${p.path}. The list of what there is stands at /api/openapi.json.`,
  'request/unreadable': () =>
    'The request is not readable JSON. Send a JSON object with the header content-type: application/json.',
  'request/too-large': () => 'The request is too large. Send it in smaller parts.',
  'request/invalid': () => 'Some of what was entered cannot be right. Correct what is named below and send it again.',
  'request/host-refused': (p) =>
    `The name "${p.host}" is not one this service answers to. On the bench machine open it as 127.0.0.1 or localhost, on a phone by the address that the bench machine shows.`,
  'request/origin-refused': () =>
    'Another web site tried to use this service, and that is refused. Use the page that the service itself shows.',
  'request/failed': () =>
    'Something went wrong inside the service. What was kept is safe; try again, and if it happens again, report it with what the service printed.',
  'request/closing': () => 'The service is closing. Try again when it has been started again.',
  'page/not-built': () =>
    'The page has not been built yet. Run "npm run build" in the project folder, then load this address again.',
  'request/too-many-streams': () => 'Too many pages follow the live stream at once. Close some of them.',

  /* ---- what a request may say wrongly, field by field ---- */
  'issue/required': () => 'is missing',
  'issue/number-as-text': (p) =>
    `write the number with a point and without quotation marks: ${p.example}, not "${p.value}"`,
  'issue/wrong-type': (p) => `should be ${p.expected}`,
  'issue/too-small': (p) => `must be ${p.inclusive ? 'at least' : 'more than'} ${p.limit}`,
  'issue/too-big': (p) => `must be ${p.inclusive ? 'at most' : 'less than'} ${p.limit}`,
  'issue/too-short': () => 'must not be empty',
  'issue/too-long': (p) => `must have at most ${p.limit} characters or entries`,
  'issue/not-one-of': (p) => `must be one of: ${p.options}`,
  'issue/unknown-field': (p) => `is not known here: ${p.fields}`,
  'issue/not-an-id': () => 'must be an identifier (UUID)',
  'issue/invalid': (p) => `cannot be right (${p.raw})`,

  /* ---- stoves, pots, wood, scales ---- */
  'comparison/burn-twice': (p) =>
    `The burn ${p.id} is named twice, and a burn cannot vouch for itself. Name each burn once, on one side.`,
  'shelf/not-found': (p) => `There is no ${p.kind} with the identifier ${p.id}. Look in the list for the right one.`,

  /* ---- burns ---- */
  'burn/not-found': (p) => `There is no burn with the identifier ${p.id}. Look in the list of burns.`,
  'burn/unknown-part': (p) =>
    `This burn names a ${p.kind} that is not there (${p.id}). Choose one from the list, or describe it first.`,
  'burn/wrong-step': (p) =>
    `A burn that is "${p.from}" cannot become "${p.to}". ${p.from === 'planned' ? 'Start it first.' : 'Make a new burn for a new fire.'}`,
  'burn/reason-missing': () => 'A burn that is not counted needs the reason, so that anyone can see later why.',
  'burn/not-removable': () =>
    'A measured burn is never deleted. Choose “Don’t count this burn” and give the reason instead: it then counts nowhere, and can be counted again.',
  'burn/already-there': (p) => `There is already another ${p.kind} with the identifier ${p.id}. Use a new identifier.`,
  'mark/not-found': (p) => `There is no mark with the identifier ${p.id} in this burn.`,
  'mark/not-started': () => 'This burn has not started, so a mark has no moment yet. Start the burn first.',
  'mark/in-the-future': (p) =>
    `This mark lies ${writeNumber('en', Number(p.aheadS), 0)} s in the future. Give a moment that has passed.`,
  'mark/unknown-channel': (p) => `This burn has no probe with the identifier ${p.id}.`,
  'mark/not-hand-read': (p) => `${p.name} is not read by hand in this burn. Choose a probe that you read yourself.`,
  'mark/reading-impossible': (p) => {
    const figure = (value: string | number | undefined) =>
      `${writeNumber('en', Number(value), 1)} ${unitWords[String(p.unit)]}`;
    return `${p.name} cannot be at ${figure(p.value)}: it lies between ${figure(p.low)} and ${figure(p.high)}. Look at the dial again, and at the decimal mark.`;
  },
  'weighing/not-found': (p) => `There is no weighing with the identifier ${p.id} in this burn.`,
  'weighing/mass-missing': () => 'This weighing has no mass. Enter the mass, or mark it as still to be weighed.',
  'weighing/pending-with-mass': () =>
    'This weighing has a mass and is marked as still to be weighed. Leave one of the two out.',
  'weighing/volume-not-water': () => 'Only water can be given as a volume. Enter the mass in kilograms.',
  'weighing/two-amounts': () => 'This weighing has both a mass and a volume. Enter only the one that was measured.',
  'weighing/more-fuel-left': (p) =>
    `More is left than was brought: ${kg(p.leftKg)} of ${kg(p.broughtKg)}. Check both weighings, and that the container was taken off each time.`,
  'weighing/more-water-left': (p) =>
    `More water is left than was put in: ${kg(p.leftKg)} of ${kg(p.broughtKg)}. Check both weighings and any water added, and that the pot was taken off each time.`,
  'exclusion/not-found': (p) => `There is no excluded stretch with the identifier ${p.id} in this burn.`,
  'exclusion/backwards': () => 'The stretch to exclude ends before it starts. Swap the two moments.',

  /* ---- boards and ports ---- */
  'probe/board-not-found': (p) => `There is no attached board with the identifier ${p.id}.`,
  'probe/channel-not-found': (p) => `This board has no channel with the identifier ${p.id}.`,
  'probe/hand-probe-not-found': (p) =>
    `There is no hand-read probe with the identifier ${p.id}. Place it again on the Probes screen.`,
  'probe/port-busy': (p) =>
    `Another program has ${p.path} open. Close its serial window (or the second copy of this service), then it connects by itself.`,
  'probe/port-missing': (p) =>
    `There is no port ${p.path}. Plug the board in, try another lead (some only charge), or choose another port.`,
  'probe/permission-denied': (p) =>
    `This user may not open ${p.path}. On Linux run "sudo usermod -a -G dialout $USER" (on some systems the group is "uucp"), then log out and in again. Do not loosen the rights of the device file: that is lost at the next plugging in.`,
  'probe/port-unknown': (p) =>
    `${p.path} could not be used${p.raw ? ` (${p.raw})` : ''}. Unplug the board, plug it in again, and look whether the port has another name now.`,
  'probe/ports-not-listed': () =>
    'This system cannot list its serial ports. Type the path of the port instead, for example /dev/ttyUSB0, /dev/ttyACM0 or COM3.',
  'probe/board-silent': (p) =>
    `${p.path} is open but the board says nothing. Check that it runs its program, that the speed is ${p.baudRate} on both sides, and press its reset button.`,
  'probe/wrong-speed': (p) =>
    `Bytes arrive on ${p.path} but they are no text, as with a wrong speed. It is set to ${p.baudRate}; set the speed the board's program uses (often 9600 or 115200).`,
  'probe/not-protocol': (p) =>
    `The board on ${p.path} prints text that is not the line protocol. If it prints numbers in columns, attach it as a plain board and map its columns.`,
  'probe/not-plain': (p) =>
    `The board on ${p.path} prints text in which the mapped columns are not found. Look at its lines and map the columns again.`,
  'probe/newer-protocol': (p) =>
    `The board on ${p.path} speaks a newer protocol than this service. Update the service, or load older firmware.`,
  'probe/no-description': (p) =>
    `The board on ${p.path} sends readings but does not answer. They are kept; check the lead's other wire (host to board), without it lost scans cannot be fetched again.`,
  'probe/identity-not-kept': (p) =>
    `The board on ${p.path} cannot store an identity. It is known by its port only: plugged in elsewhere it counts as another board.`,
  'probe/identity-shared': (p) =>
    `The board on ${p.path} carries the identity of another board that is connected too (a copied memory). It is given one of its own.`,
  'probe/wrong-clock': (p) =>
    `The clock of the board on ${p.path} ${clockWords(Number(p.ratio))}. Its readings are kept with the time at which they arrived. Mend it in the firmware, or choose the right unit for the time column.`,
  'probe/no-answer': (p) =>
    `The board on ${p.path} did not answer. Check that it is connected and live, then try again.`,
  'probe/not-supported': (p) => `The board on ${p.path} cannot do that. Its firmware does not have it.`,

  /* ---- the demonstration ---- */
  'demo/folder-not-demo': (p) =>
    `${p.folder} holds data that the demonstration did not make, so it is left alone. Name an empty folder: STOVEBENCH_DATA=/a/folder npm run demo.`,
  'demo/option-unknown': (p) =>
    `The demonstration does not know "${p.option}". It knows --fresh (begin anew) and --remove (delete its data).`,
} satisfies Record<string, Sentence>;

export type ErrorCode = keyof typeof errorsEn;
