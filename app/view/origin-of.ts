/**
 * By what name the reader reached the site: behind another server the address of this one is none of its.
 *
 * @param own address of this server, for a request that names no host
 */
export function originOf(headers: Pick<Headers, 'get'>, own: string): string {
  const host = headers.get('x-forwarded-host') ?? headers.get('host');
  if (!host || !/^[\w.:[\]-]{1,200}$/.test(host)) return own;
  const protocol =
    headers.get('x-forwarded-proto') === 'https' ? 'https' : new URL(own).protocol.slice(0, -1);
  return `${protocol}://${host}`;
}
