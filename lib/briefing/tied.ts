/** Words whose numbers stay on the line of what they are of: `group 9`, `95 % interval`, `38 km`. */
export function tied(words: string): string {
  return words.replace(/\b(groups?) (?=\d)/gi, '$1\u00a0').replace(/(\d) (?=%|km\b)/g, '$1\u00a0');
}
