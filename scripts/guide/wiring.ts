import type { BoardConfig, ConfiguredProbe, ProbeKind } from '../../firmware-protocol/bench-config.ts';

/** A line that runs from the board past all modules, or to one of them. */
interface Line {
  name: string;
  colour: string;
  dash: string;
}

const SUPPLY: Line = { name: '5 V', colour: '#b3261e', dash: '' };
const GROUND: Line = { name: 'GND', colour: '#1b1b1b', dash: '' };
const CLOCK: Line = { name: 'D13', colour: '#0b57a4', dash: '' };
const FROM_CHIP: Line = { name: 'D12', colour: '#00695c', dash: '8 4' };
const TO_CHIP: Line = { name: 'D11', colour: '#6a1b9a', dash: '2 4' };
const BUSES = [SUPPLY, GROUND, CLOCK, FROM_CHIP, TO_CHIP];
const OWN_COLOUR = '#8a4b00';

/**
 * Names printed on the modules next to their pins, and the target of each; `own` is the pin of the configuration
 * header.
 */
const MODULES: Record<
  Exclude<ProbeKind, 'TERMINALS'>,
  { title: string; more?: string; pins: [string, Line | 'own' | 'clock'][] }
> = {
  THERMOCOUPLE_14: {
    title: '31855',
    pins: [
      ['VIN', SUPPLY],
      ['GND', GROUND],
      ['CLK', CLOCK],
      ['DO', FROM_CHIP],
      ['CS', 'own'],
    ],
  },
  THERMOCOUPLE_19: {
    title: '31856',
    pins: [
      ['VIN', SUPPLY],
      ['GND', GROUND],
      ['SCK', CLOCK],
      ['SDO', FROM_CHIP],
      ['SDI', TO_CHIP],
      ['CS', 'own'],
    ],
  },
  ONE_WIRE: {
    title: '18B20',
    more: '4.7 kΩ DQ – VDD',
    pins: [
      ['VDD', SUPPLY],
      ['GND', GROUND],
      ['DQ', 'own'],
    ],
  },
  ANALOGUE: {
    title: '0 … 5 V',
    pins: [
      ['+', SUPPLY],
      ['−', GROUND],
      ['OUT', 'own'],
    ],
  },
  LOAD_CELL: {
    title: '711',
    pins: [
      ['VCC', SUPPLY],
      ['GND', GROUND],
      ['DT', 'own'],
      ['SCK', 'clock'],
    ],
  },
};

const PIN_STEP = 22;
const MODULE_GAP = 26;
const BOARD_RIGHT = 132;
const MODULE_LEFT = 470;
const WIDTH = 700;

/** The name of a pin on boards with an ATmega328P. */
export function pinName(pin: number): string {
  return pin < 14 ? `D${pin}` : `A${pin - 14}`;
}

/** The wiring of a configured board as an SVG picture: the board on the left, one module per probe on the right. */
export function drawWiring(config: BoardConfig): string {
  const modules = config.probes.filter((probe) => probe.kind !== 'TERMINALS');
  const parts: string[] = [];
  const busX = (line: Line) => 200 + BUSES.indexOf(line) * 34;
  const reach = new Map<Line, number>();
  let y = 40;
  let ownX = 200 + BUSES.length * 34;
  const boardPins: { name: string; y: number }[] = [];
  BUSES.forEach(({ name }, i) => {
    boardPins.push({ name, y: 52 + i * PIN_STEP });
  });
  const used = new Set<Line>();
  const own: string[] = [];
  let boardY = 52 + BUSES.length * PIN_STEP + 12;

  for (const probe of modules) {
    const { title, more, pins } = moduleOf(probe);
    const height = pins.length * PIN_STEP + 34;
    parts.push(box(MODULE_LEFT, y, WIDTH - MODULE_LEFT - 14, height));
    parts.push(text(MODULE_LEFT + 78, y + 20, probe.label.replaceAll('_', ' '), 'font-weight="700"'));
    parts.push(text(MODULE_LEFT + 78, y + 40, probe.type ? `${title} · ${probe.type}` : title));
    if (more) parts.push(text(MODULE_LEFT + 78, y + 60, more));
    pins.forEach(([name, to], i) => {
      const pinY = y + 24 + i * PIN_STEP;
      parts.push(text(MODULE_LEFT + 8, pinY + 5, name));
      if (typeof to === 'object') {
        used.add(to);
        reach.set(to, pinY);
        parts.push(path(`M${busX(to)} ${pinY}H${MODULE_LEFT}`, to), dot(busX(to), pinY, to.colour));
        return;
      }
      const pin = to === 'own' ? probe.pin! : config.loadCellClockPin!;
      boardPins.push({ name: pinName(pin), y: boardY });
      own.push(
        path(`M${BOARD_RIGHT} ${boardY}H${ownX}V${pinY}H${MODULE_LEFT}`, { name: '', colour: OWN_COLOUR, dash: '' }),
      );
      ownX += 9;
      boardY += PIN_STEP;
    });
    y += height + MODULE_GAP;
  }
  BUSES.forEach((line, i) => {
    if (!used.has(line)) return;
    const fromY = 52 + i * PIN_STEP;
    parts.push(path(`M${BOARD_RIGHT} ${fromY}H${busX(line)}V${reach.get(line)}`, line));
  });
  const height = Math.max(y, boardY + 20) + 4;
  const board = [
    box(14, 24, BOARD_RIGHT - 14, boardY - 20),
    text(24, 20, 'ATmega328P', 'font-weight="700"'),
    ...boardPins
      .filter(({ name }) => !BUSES.some((line) => line.name === name && !used.has(line)))
      .map((pin) => text(BOARD_RIGHT - 42, pin.y + 5, pin.name)),
  ];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" font-family="sans-serif" font-size="14">`,
    `<title>${['ATmega328P', ...modules.map((probe) => moduleOf(probe).title)].join(', ')}</title>`,
    `<rect width="${WIDTH}" height="${height}" fill="#fff"/>`,
    ...board,
    ...own,
    ...parts,
    '</svg>\n',
  ].join('\n');
}

function moduleOf(probe: ConfiguredProbe) {
  return MODULES[probe.kind as Exclude<ProbeKind, 'TERMINALS'>];
}

function box(x: number, y: number, width: number, height: number): string {
  return `<rect x="${x}" y="${y}" width="${width}" height="${height}" rx="6" fill="#f4f1ea" stroke="#1b1b1b"/>`;
}

function text(x: number, y: number, words: string, more = ''): string {
  const safe = words.replace(/[&<>]/g, (sign) => `&#${sign.charCodeAt(0)};`);
  return `<text x="${x}" y="${y}" fill="#1b1b1b"${more && ` ${more}`}>${safe}</text>`;
}

function path(d: string, { colour, dash }: Line): string {
  return `<path d="${d}" fill="none" stroke="${colour}" stroke-width="2"${dash && ` stroke-dasharray="${dash}"`}/>`;
}

function dot(x: number, y: number, colour: string): string {
  return `<circle cx="${x}" cy="${y}" r="3.5" fill="${colour}"/>`;
}
