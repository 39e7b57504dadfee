/** A physical line of the file, without its end. */
export interface Line {
  number: number;
  text: string;
  /** Longer than `MAX_LINE`: the text is its beginning. */
  cut: boolean;
}

/** Characters of the longest line that is kept. */
export const MAX_LINE = 262_144;

/** Cuts a text that comes in pieces into lines at CR LF, LF or CR. Holds one line. */
export function createLineSplitter(): { push(text: string): Line[]; end(): Line[] } {
  let number = 0;
  let rest = '';
  let cut = false;
  let afterReturn = false;
  let first = true;

  const keep = (text: string) => {
    rest = (rest + text).slice(0, MAX_LINE + 1);
    cut ||= rest.length > MAX_LINE;
  };
  const close = (): Line => {
    const line = { number: ++number, text: rest.slice(0, MAX_LINE), cut };
    rest = '';
    cut = false;
    return line;
  };
  return {
    push(text) {
      const lines: Line[] = [];
      let from = first && text.startsWith('\ufeff') ? 1 : 0;
      if (text !== '') first = false;
      for (let at = from; at < text.length; at++) {
        const code = text.charCodeAt(at);
        if (code !== 10 && code !== 13) continue;
        if (!(code === 10 && at === from && (at === 0 ? afterReturn : text.charCodeAt(at - 1) === 13))) {
          keep(text.slice(from, at));
          lines.push(close());
        }
        from = at + 1;
      }
      if (from < text.length) keep(text.slice(from));
      if (text !== '') afterReturn = text.endsWith('\r');
      return lines;
    },
    end: () => (rest === '' ? [] : [close()]),
  };
}
