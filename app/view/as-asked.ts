/** A part of an address as it was meant; one that is wrongly encoded stays as it is, and is then found nowhere. */
export function asAsked(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
