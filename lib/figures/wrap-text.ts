/** Mean width of a letter, in ems, of a sans serif with some room to spare: a reader's machine may have a wider one. */
const LETTER = 0.5;
const BOLD = 1.06;

/** Words in lines that are at most `width` wide at a font of this size; a longer word has a line of its own. */
export function wrapText(words: string, width: number, size: number, isBold = false): string[] {
  const most = Math.max(1, Math.floor(width / (size * LETTER * (isBold ? BOLD : 1))));
  const lines: string[] = [];
  for (const word of words.split(/[ \n]+/).filter((one) => one !== '')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
