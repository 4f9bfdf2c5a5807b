/** An address as a code that a camera reads off the screen. */
import type { VNode } from 'preact';
import qrcode from 'qrcode-generator';

/** Light modules around it on every side (ISO/IEC 18004, 6.3.8). */
const QUIET_MODULES = 4;

/**
 * A square of black on white in the dark theme as well: cameras read nothing else reliably.
 * @param label text for a screen reader
 */
export function QrCode({ text, label }: { text: string; label: string }): VNode {
  const { size, path } = modulesOf(text);
  const edge = size + 2 * QUIET_MODULES;
  return (
    <svg
      class="qr-code"
      role="img"
      aria-label={label}
      viewBox={`${-QUIET_MODULES} ${-QUIET_MODULES} ${edge} ${edge}`}
      shape-rendering="crispEdges"
    >
      <rect x={-QUIET_MODULES} y={-QUIET_MODULES} width={edge} height={edge} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  );
}

function modulesOf(text: string): { size: number; path: string } {
  const code = qrcode(0, 'M');
  code.addData(text);
  code.make();
  const size = code.getModuleCount();
  const places = Array.from({ length: size * size }, (_, place) => [Math.floor(place / size), place % size] as const);
  const dark = places.filter(([row, column]) => code.isDark(row, column));
  return { size, path: dark.map(([row, column]) => `M${column} ${row}h1v1h-1z`).join('') };
}
