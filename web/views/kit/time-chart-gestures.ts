/**
 * Fingers and mouse on a strip: a sideways drag moves the cursor, a mark can be dragged along its lane,
 * two fingers (or Ctrl and the wheel) stretch and shift time. Up and down still scroll the page.
 * While a stretch is being chosen, a drag sweeps over it and a tap sets one of its ends.
 */
import type { TimeChartChart } from '../../charts/time-chart.ts';

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

export function cursorGestures(element: HTMLElement, hands: Hands): () => void {
  const fingers = new Map<number, number>();
  let pinch: { fromMin: number; toMin: number; minutes: [number, number] } | undefined;
  let dragged: { id: string; startX: number; moved: boolean } | undefined;
  let swept: { fromMin: number; startX: number; moved: boolean } | undefined;
  const xOf = (event: PointerEvent | WheelEvent) => event.clientX - element.getBoundingClientRect().left;
  const yOf = (event: PointerEvent) => event.clientY - element.getBoundingClientRect().top;
  const minuteAt = (x: number) => {
    const { fromMin, toMin } = hands.range();
    return Math.min(toMin, Math.max(fromMin, hands.chart()?.minuteAt(x) ?? fromMin));
  };

  const down = (event: PointerEvent) => {
    fingers.set(event.pointerId, xOf(event));
    const isOne = fingers.size === 1;
    const near = isOne && !hands.isChoosing() ? hands.chart()?.markNear(xOf(event), yOf(event)) : undefined;
    if (isOne && hands.isChoosing()) {
      swept = { fromMin: minuteAt(xOf(event)), startX: xOf(event), moved: false };
      element.setPointerCapture(event.pointerId);
      hands.cursor(swept.fromMin);
    } else if (near) {
      dragged = { id: near.id, startX: xOf(event), moved: false };
      element.setPointerCapture(event.pointerId);
    } else if (fingers.size === 2 && hands.canZoom()) {
      const [a = 0, b = 0] = [...fingers.values()];
      pinch = { ...hands.range(), minutes: [minuteAt(a), minuteAt(b)] };
      // The first finger meant the stretch of time, not what lay under it.
      dragged = undefined;
      swept = undefined;
    } else {
      hands.cursor(minuteAt(xOf(event)));
    }
  };
  const move = (event: PointerEvent) => {
    if (fingers.has(event.pointerId)) fingers.set(event.pointerId, xOf(event));
    if (pinch && fingers.size === 2) {
      const [a = 0, b = 1] = [...fingers.values()];
      const [left, right] = pinch.minutes;
      const perPixel = Math.abs(right - left) / Math.max(20, Math.abs(b - a));
      const span = Math.max(shortestMin, perPixel * element.clientWidth);
      const middle = (left + right) / 2 - ((a + b) / 2 / element.clientWidth - 0.5) * span;
      hands.zoom({ fromMin: middle - span / 2, toMin: middle + span / 2 });
    } else if (swept) {
      if (Math.abs(xOf(event) - swept.startX) > tapPx) swept.moved = true;
      hands.cursor(minuteAt(xOf(event)));
      if (swept.moved) hands.sweep(swept.fromMin, minuteAt(xOf(event)));
    } else if (dragged) {
      if (Math.abs(xOf(event) - dragged.startX) > tapPx && hands.canMove()) dragged.moved = true;
      if (dragged.moved) hands.cursor(minuteAt(xOf(event)));
    } else if (event.pointerType === 'mouse' || fingers.size === 1) {
      hands.cursor(minuteAt(xOf(event)));
    }
  };
  const up = (event: PointerEvent) => {
    fingers.delete(event.pointerId);
    if (fingers.size < 2) pinch = undefined;
    if (swept) {
      if (!swept.moved) hands.setEnd(swept.fromMin);
      swept = undefined;
      hands.cursor(undefined);
    }
    if (dragged) {
      if (dragged.moved) hands.moveMark(dragged.id, minuteAt(xOf(event)));
      else hands.pickMark(dragged.id);
      dragged = undefined;
      hands.cursor(undefined);
    }
  };
  // The page took the finger over, to scroll: nothing was meant by it.
  const cancel = (event: PointerEvent) => {
    fingers.delete(event.pointerId);
    pinch = undefined;
    dragged = undefined;
    swept = undefined;
    hands.cursor(undefined);
  };
  const leave = (event: PointerEvent) => {
    fingers.delete(event.pointerId);
    if (event.pointerType === 'mouse' && !dragged && !swept) hands.cursor(undefined);
  };
  const wheel = (event: WheelEvent) => {
    const isSideways = Math.abs(event.deltaX) > Math.abs(event.deltaY);
    if (!(event.ctrlKey || isSideways) || !hands.canZoom()) return;
    event.preventDefault();
    const { fromMin, toMin } = hands.range();
    if (isSideways) {
      const by = (event.deltaX / element.clientWidth) * (toMin - fromMin);
      return hands.zoom({ fromMin: fromMin + by, toMin: toMin + by });
    }
    const at = minuteAt(xOf(event));
    const by = Math.exp(event.deltaY / 300);
    if ((toMin - fromMin) * by < shortestMin) return;
    hands.zoom({ fromMin: at - (at - fromMin) * by, toMin: at + (toMin - at) * by });
  };

  element.addEventListener('pointerdown', down);
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', up);
  element.addEventListener('pointercancel', cancel);
  element.addEventListener('pointerleave', leave);
  element.addEventListener('wheel', wheel, { passive: false });
  return () => {
    element.removeEventListener('pointerdown', down);
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', up);
    element.removeEventListener('pointercancel', cancel);
    element.removeEventListener('pointerleave', leave);
    element.removeEventListener('wheel', wheel);
  };
}
