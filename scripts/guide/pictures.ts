import { firmwareNames } from '../../shared/contract/flashing.ts';
import { configOf } from '../avr-board/board.ts';
import { drawPlacing } from './placing.ts';
import { drawWiring } from './wiring.ts';

/** The pictures of the guide by their file names. */
export function guidePictures(): Map<string, string> {
  const wirings = firmwareNames.map((name): [string, string] => [
    `${name.replace('bench-board', 'wiring')}.svg`,
    drawWiring(configOf(name)),
  ]);
  return new Map([...wirings, ['placing.svg', drawPlacing()]]);
}
