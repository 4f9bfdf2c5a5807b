/**
 * What can be wrong with a board, as a code with what goes into its sentence. `message` says in English what is wrong
 * and what to do; `raw` keeps the system's own words.
 */
export interface BoardProblem {
  code: BoardProblemCode;
  params: Record<string, string | number>;
  message: string;
  raw?: string;
}

export const BOARD_PROBLEM_CODES = [
  'port-busy',
  'port-missing',
  'permission-denied',
  'port-unknown',
  'board-silent',
  'wrong-speed',
  'not-protocol',
  'not-plain',
  'newer-protocol',
  'no-description',
  'identity-not-kept',
  'identity-shared',
] as const;
export type BoardProblemCode = (typeof BOARD_PROBLEM_CODES)[number];

type Params = Record<string, string | number>;

const SENTENCES: Record<BoardProblemCode, (p: Params) => string> = {
  'port-busy': (p) =>
    `Another program has ${p.path} open. Close its serial window (or the second copy of this service), then it connects by itself.`,
  'port-missing': (p) =>
    `There is no port ${p.path}. Plug the board in, try another lead (some only charge), or choose another port.`,
  'permission-denied': (p) =>
    `This user may not open ${p.path}. On Linux run "sudo usermod -a -G dialout $USER" (on some systems the group is "uucp"), ` +
    'then log out and in again. Do not loosen the rights of the device file: that is lost at the next plugging in.',
  'port-unknown': (p) =>
    `${p.path} could not be used. Unplug the board, plug it in again, and see the system's own words below.`,
  'board-silent': (p) =>
    `${p.path} is open but the board says nothing. Check that it runs its program, that the speed is ${p.baudRate} on both sides, and press its reset button.`,
  'wrong-speed': (p) =>
    `Bytes arrive on ${p.path} but they are no text, as with a wrong speed. It is set to ${p.baudRate}; set the speed the board's program uses (often 9600 or 115200).`,
  'not-protocol': (p) =>
    `The board on ${p.path} prints text that is not the line protocol. If it prints numbers in columns, attach it as a plain board and map its columns.`,
  'not-plain': (p) =>
    `The board on ${p.path} prints text in which the mapped columns are not found. Look at its lines and map the columns again.`,
  'newer-protocol': (p) =>
    `The board on ${p.path} speaks a newer protocol than this service. Update the service, or load older firmware.`,
  'no-description': (p) =>
    `The board on ${p.path} sends readings but does not answer. They are kept; check the lead's other wire (host to board), without it lost scans cannot be fetched again.`,
  'identity-not-kept': (p) =>
    `The board on ${p.path} cannot store an identity. It is known by its port only: plugged in elsewhere it counts as another board.`,
  'identity-shared': (p) =>
    `The board on ${p.path} carries the identity of another board that is connected too (a copied memory). It is given one of its own.`,
};

export function boardProblem(code: BoardProblemCode, params: Params, raw?: string): BoardProblem {
  return { code, params, message: SENTENCES[code](params), ...(raw === undefined ? {} : { raw }) };
}
