/**
 * Fingers and mouse on a time chart: a sideways drag moves the cursor, a mark can be dragged along its track,
 * two fingers (or Ctrl and the wheel) stretch and shift time. Up and down still scroll the page.
 * While a stretch is being chosen, a drag sweeps over it and a tap sets one of its ends.
 */
import type { TimeChartChart } from '../../charts/time-chart.ts';
import { gutterPx } from '../../charts/time-chart-model.ts';

interface Hands {
  chart: () => TimeChartChart | undefined;
  range: () => { fromMin: number; toMin: number };
  cursor: (minute: number | undefined) => void;
  moveMark: (id: string, minute: number) => void;
  pickMark: (id: string) => void;
  zoom: (range: { fromMin: number; toMin: number }) => void;
  sweep: (fromMin: number, toMin: number) => void;
  setEnd: (minute: number) => void;
  isChoosing: () => boolean;
  canMove: () => boolean;
  canZoom: () => boolean;
}

const shortestMin = 5;
/** A finger that moved less than this has tapped, not dragged. */
const tapPx = 6;

/** What the fingers that are down mean. */
interface Touch {
  readonly element: HTMLElement;
  readonly hands: Hands;
  /** Where each finger is, by its pointer. */
  readonly fingers: Map<number, number>;
  pinch?: { fromMin: number; toMin: number; minutes: [number, number] } | undefined;
  dragged?: { id: string; startX: number; moved: boolean } | undefined;
  swept?: { fromMin: number; startX: number; moved: boolean } | undefined;
}

export function cursorGestures(element: HTMLElement, hands: Hands): () => void {
  const touch: Touch = { element, hands, fingers: new Map() };
  const pointers = { pointerdown: down, pointermove: move, pointerup: up, pointercancel: cancel, pointerleave: leave };
  const stopped = new AbortController();
  const { signal } = stopped;
  for (const [name, act] of Object.entries(pointers))
    element.addEventListener(name, (event) => act(touch, event as PointerEvent), { signal });
  element.addEventListener('wheel', (event) => wheel(touch, event), { passive: false, signal });
  return () => stopped.abort();
}

function xOf({ element }: Touch, event: MouseEvent): number {
  return event.clientX - element.getBoundingClientRect().left;
}

function minuteAt({ hands }: Touch, x: number): number {
  const { fromMin, toMin } = hands.range();
  return Math.min(toMin, Math.max(fromMin, hands.chart()?.minuteAt(x) ?? fromMin));
}

function down(touch: Touch, event: PointerEvent): void {
  const { element, hands, fingers } = touch;
  const x = xOf(touch, event);
  fingers.set(event.pointerId, x);
  const isOne = fingers.size === 1;
  const y = event.clientY - element.getBoundingClientRect().top;
  const near = isOne && !hands.isChoosing() ? hands.chart()?.markNear(x, y) : undefined;
  if (isOne && hands.isChoosing()) {
    touch.swept = { fromMin: minuteAt(touch, x), startX: x, moved: false };
    element.setPointerCapture(event.pointerId);
    hands.cursor(touch.swept.fromMin);
  } else if (near) {
    touch.dragged = { id: near.id, startX: x, moved: false };
    element.setPointerCapture(event.pointerId);
  } else if (fingers.size === 2 && hands.canZoom()) {
    const [a = 0, b = 0] = [...fingers.values()];
    touch.pinch = { ...hands.range(), minutes: [minuteAt(touch, a), minuteAt(touch, b)] };
    // The first finger meant the stretch of time, not what lay under it.
    touch.dragged = undefined;
    touch.swept = undefined;
  } else {
    hands.cursor(minuteAt(touch, x));
  }
}

function move(touch: Touch, event: PointerEvent): void {
  const { hands, fingers, pinch, swept, dragged } = touch;
  const x = xOf(touch, event);
  if (fingers.has(event.pointerId)) fingers.set(event.pointerId, x);
  if (pinch && fingers.size === 2) {
    stretch(touch, pinch.minutes);
  } else if (swept) {
    if (Math.abs(x - swept.startX) > tapPx) swept.moved = true;
    hands.cursor(minuteAt(touch, x));
    if (swept.moved) hands.sweep(swept.fromMin, minuteAt(touch, x));
  } else if (dragged) {
    if (Math.abs(x - dragged.startX) > tapPx && hands.canMove()) dragged.moved = true;
    if (dragged.moved) hands.cursor(minuteAt(touch, x));
  } else if (event.pointerType === 'mouse' || fingers.size === 1) {
    hands.cursor(minuteAt(touch, x));
  }
}

/** Two fingers keep the minutes under them. */
function stretch({ element, hands, fingers }: Touch, [left, right]: readonly [number, number]): void {
  const [a = 0, b = 1] = [...fingers.values()];
  const paperPx = element.clientWidth - gutterPx;
  const perPixel = Math.abs(right - left) / Math.max(20, Math.abs(b - a));
  const span = Math.max(shortestMin, perPixel * paperPx);
  const middle = (left + right) / 2 - (((a + b) / 2 - gutterPx) / paperPx - 0.5) * span;
  hands.zoom({ fromMin: middle - span / 2, toMin: middle + span / 2 });
}

function up(touch: Touch, event: PointerEvent): void {
  const { hands, fingers, swept, dragged } = touch;
  fingers.delete(event.pointerId);
  if (fingers.size < 2) touch.pinch = undefined;
  if (swept && !swept.moved) hands.setEnd(swept.fromMin);
  if (dragged?.moved) hands.moveMark(dragged.id, minuteAt(touch, xOf(touch, event)));
  else if (dragged) hands.pickMark(dragged.id);
  if (swept || dragged) hands.cursor(undefined);
  touch.swept = undefined;
  touch.dragged = undefined;
}

/** The page took the finger over, to scroll: nothing was meant by it. */
function cancel(touch: Touch, event: PointerEvent): void {
  touch.fingers.delete(event.pointerId);
  touch.pinch = undefined;
  touch.dragged = undefined;
  touch.swept = undefined;
  touch.hands.cursor(undefined);
}

function leave({ hands, fingers, dragged, swept }: Touch, event: PointerEvent): void {
  fingers.delete(event.pointerId);
  if (event.pointerType === 'mouse' && !dragged && !swept) hands.cursor(undefined);
}

function wheel(touch: Touch, event: WheelEvent): void {
  const { element, hands } = touch;
  const isSideways = Math.abs(event.deltaX) > Math.abs(event.deltaY);
  if (!(event.ctrlKey || isSideways) || !hands.canZoom()) return;
  event.preventDefault();
  const { fromMin, toMin } = hands.range();
  if (isSideways) {
    const by = (event.deltaX / (element.clientWidth - gutterPx)) * (toMin - fromMin);
    hands.zoom({ fromMin: fromMin + by, toMin: toMin + by });
    return;
  }
  const at = minuteAt(touch, xOf(touch, event));
  const by = Math.exp(event.deltaY / 300);
  if ((toMin - fromMin) * by < shortestMin) return;
  hands.zoom({ fromMin: at - (at - fromMin) * by, toMin: at + (toMin - at) * by });
}
