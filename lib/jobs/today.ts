/** Today as an ISO day, in UTC. */
export function today(): string {
  return new Date().toISOString().slice(0, 10);
}
