/** Does some work once the next frame is on its way, so that what a tap or key changes beside the map is seen first. */
export function afterPaint(work: () => void): void {
  requestAnimationFrame(() => setTimeout(work));
}
