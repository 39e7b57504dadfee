/**
 * An address whose path can be decoded: each part of it that cannot (`%E0%A4%A`, `100%`), or that holds a NUL, is taken as
 * it was written, so that a page can say that there is no such thing. Queries are read leniently by themselves.
 */
export function wellEncoded(address: string): string {
  const [path, ...query] = address.split('?') as [string, ...string[]];
  const parts = path.split('/').map((part) => (isDecodable(part) ? part : part.replaceAll('%', '%25')));
  return [parts.join('/'), ...query].join('?');
}

function isDecodable(part: string): boolean {
  try {
    return !decodeURIComponent(part).includes('\0');
  } catch {
    return false;
  }
}
