import { type BoardName, configOf } from '../avr-board/board.ts';
import { drawPlacing } from './placing.ts';
import { drawWiring } from './wiring.ts';

const boards: BoardName[] = ['bench-board-14', 'bench-board-19', 'bench-board-mixed'];

/** The pictures of the guide by their file names. */
export function guidePictures(): Map<string, string> {
  const wirings = boards.map((name): [string, string] => [
    `${name.replace('bench-board', 'wiring')}.svg`,
    drawWiring(configOf(name)),
  ]);
  return new Map([...wirings, ['placing.svg', drawPlacing()]]);
}
