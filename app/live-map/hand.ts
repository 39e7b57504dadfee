import type { Map as MapLibre } from 'maplibre-gl';

/** How far a pointer moves before it drags, in CSS pixels: so far the map takes a press for a click. */
const TOLERANCE = 3;
/** How far a finger may slip, in CSS pixels, and how long it may stay, in ms, to have tapped. */
const [SLIP, TAP_MS] = [10, 500];

/**
 * Lets a press drag the map only once it has moved, and one finger never. The map takes each press for the beginning of a
 * drag, and draws itself anew when that ends, which keeps a tap waiting for nothing. A finger's tap is told at once, in
 * place of the mouse that browsers make of it.
 *
 * @param tap told where in the map; returns whether it was of use
 */
export function handleHand(
  map: MapLibre,
  signal: AbortSignal,
  tap: (point: { x: number; y: number }) => boolean,
): void {
  const container = map.getContainer();
  let from: { clientX: number; clientY: number } | null = null;
  let since = 0;
  const hasMoved = ({ clientX, clientY }: { clientX: number; clientY: number }, by = TOLERANCE) =>
    from !== null && Math.hypot(clientX - from.clientX, clientY - from.clientY) >= by;
  const rest = () => {
    map.dragPan.disable();
    if (map.isMoving()) map.stop();
  };

  let held = new AbortController();
  let isHandedOn = false;
  const press = (pressed: MouseEvent) => {
    if (isHandedOn || pressed.button !== 0 || pressed.target !== map.getCanvas()) return;
    rest();
    from = pressed;
    held.abort();
    held = new AbortController();
    const until = { capture: true, signal: AbortSignal.any([held.signal, signal]) };
    const move = (event: MouseEvent) => {
      if (!hasMoved(event)) return;
      held.abort();
      map.dragPan.enable();
      isHandedOn = true;
      map.getCanvas().dispatchEvent(new MouseEvent('mousedown', pressed));
      isHandedOn = false;
    };
    addEventListener('mousemove', move, until);
    addEventListener('mouseup', () => held.abort(), until);
  };

  const touch = ({ touches, target, timeStamp }: TouchEvent) => {
    from = null;
    if (touches.length > 1) {
      map.dragPan.enable();
      return;
    }
    rest();
    if (target === map.getCanvas()) [from, since] = [touches[0]!, timeStamp];
  };
  const swipe = (event: TouchEvent) => {
    if (event.touches.length === 1 && hasMoved(event.touches[0]!))
      map.cooperativeGestures.notifyGestureBlocked('touch_pan', event);
  };
  const lift = (event: TouchEvent) => {
    const [finger] = event.changedTouches;
    const isTap = from && finger && !hasMoved(finger, SLIP) && event.timeStamp - since <= TAP_MS;
    from = null;
    if (!isTap) return;
    const { left, top } = map.getCanvas().getBoundingClientRect();
    if (tap({ x: finger.clientX - left, y: finger.clientY - top })) event.preventDefault();
  };
  const letGo = () => {
    from = null;
  };

  const listening = { capture: true, passive: true, signal };
  container.addEventListener('mousedown', press, listening);
  container.addEventListener('touchstart', touch, listening);
  container.addEventListener('touchmove', swipe, listening);
  // After the map's own, which measures the page: what is told of a place changes it.
  container.addEventListener('touchend', lift, { passive: false, signal });
  container.addEventListener('touchcancel', letGo, listening);
}
