import type { Map as MapLibre } from 'maplibre-gl';

/** How far a pointer moves before it drags, in CSS pixels: so far the map takes a press for a click. */
const TOLERANCE = 3;

/**
 * Lets a press drag the map only once it has moved, and one finger never. The map takes each press for the beginning of a
 * drag, and draws itself anew when that ends, which keeps a tap waiting for nothing.
 */
export function dragOnceMoved(map: MapLibre, signal: AbortSignal): void {
  const container = map.getContainer();
  let from: { clientX: number; clientY: number } | null = null;
  const hasMoved = ({ clientX, clientY }: { clientX: number; clientY: number }) =>
    from !== null && Math.hypot(clientX - from.clientX, clientY - from.clientY) >= TOLERANCE;
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

  const touch = ({ touches }: TouchEvent) => {
    if (touches.length > 1) {
      map.dragPan.enable();
      return;
    }
    rest();
    from = touches[0]!;
  };
  const swipe = (event: TouchEvent) => {
    if (event.touches.length === 1 && hasMoved(event.touches[0]!))
      map.cooperativeGestures.notifyGestureBlocked('touch_pan', event);
  };
  const lift = () => {
    from = null;
  };

  const listening = { capture: true, passive: true, signal };
  container.addEventListener('mousedown', press, listening);
  container.addEventListener('touchstart', touch, listening);
  container.addEventListener('touchmove', swipe, listening);
  container.addEventListener('touchend', lift, listening);
  container.addEventListener('touchcancel', lift, listening);
}
