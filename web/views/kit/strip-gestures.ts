/**
 * Fingers and mouse on a strip: a sideways drag moves the cursor, a mark can be dragged along its lane,
 * two fingers (or Ctrl and the wheel) stretch time. Up and down still scroll the page.
 */
import type { StripChart } from '../../charts/strip-chart.ts';

interface Hands {
  chart: () => StripChart | undefined;
  range: () => { fromMin: number; toMin: number };
  cursor: (minute: number | undefined) => void;
  moveMark: (id: string, minute: number) => void;
  pickMark: (id: string) => void;
  zoom: (range: { fromMin: number; toMin: number }) => void;
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
  const xOf = (event: PointerEvent | WheelEvent) => event.clientX - element.getBoundingClientRect().left;
  const yOf = (event: PointerEvent) => event.clientY - element.getBoundingClientRect().top;
  const minuteAt = (x: number) => {
    const { fromMin, toMin } = hands.range();
    return Math.min(toMin, Math.max(fromMin, hands.chart()?.minuteAt(x) ?? fromMin));
  };

  const down = (event: PointerEvent) => {
    fingers.set(event.pointerId, xOf(event));
    const near = fingers.size === 1 ? hands.chart()?.markNear(xOf(event), yOf(event)) : undefined;
    if (near) {
      dragged = { id: near.id, startX: xOf(event), moved: false };
      element.setPointerCapture(event.pointerId);
    } else if (fingers.size === 2 && hands.canZoom()) {
      const [a = 0, b = 0] = [...fingers.values()];
      pinch = { ...hands.range(), minutes: [minuteAt(a), minuteAt(b)] };
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
    if (dragged) {
      if (dragged.moved) hands.moveMark(dragged.id, minuteAt(xOf(event)));
      else hands.pickMark(dragged.id);
      dragged = undefined;
      hands.cursor(undefined);
    }
  };
  const leave = (event: PointerEvent) => {
    fingers.delete(event.pointerId);
    if (event.pointerType === 'mouse' && !dragged) hands.cursor(undefined);
  };
  const wheel = (event: WheelEvent) => {
    if (!event.ctrlKey || !hands.canZoom()) return;
    event.preventDefault();
    const { fromMin, toMin } = hands.range();
    const at = minuteAt(xOf(event));
    const by = Math.exp(event.deltaY / 300);
    if ((toMin - fromMin) * by < shortestMin) return;
    hands.zoom({ fromMin: at - (at - fromMin) * by, toMin: at + (toMin - at) * by });
  };

  element.addEventListener('pointerdown', down);
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', up);
  element.addEventListener('pointercancel', leave);
  element.addEventListener('pointerleave', leave);
  element.addEventListener('wheel', wheel, { passive: false });
  return () => {
    element.removeEventListener('pointerdown', down);
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', up);
    element.removeEventListener('pointercancel', leave);
    element.removeEventListener('pointerleave', leave);
    element.removeEventListener('wheel', wheel);
  };
}
