/** Outline of the mark on a square of 24 units, drawn with round strokes 2 units wide. */
export const MARK_PATH =
  'M4 4v17M20 4v17M1.5 10h21M12 21v-7M12 17c0-3-2-4-4.5-4 0 3 2 4 4.5 4M12 15c0-3 2-4 4.5-4 0 3-2 4-4.5 4';

export const MARK_SVG = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24"><rect width="24" height="24" rx="4" fill="#fbfaf5"/><path d="${MARK_PATH}" fill="none" stroke="#7a2454" stroke-width="2" stroke-linecap="round"/></svg>`;
