import { NoDatabaseError } from '../database';

/** What `read` gives, or that the database did not answer, which is a state of a page; any other error is thrown. */
export async function orUnreachable<T>(read: () => Promise<T>): Promise<T | { state: 'unreachable' }> {
  try {
    return await read();
  } catch (error) {
    if (!isUnreachable(error)) throw error;
    return { state: 'unreachable' };
  }
}

/** Whether it says that the releases cannot be read at this moment; then it is told to whoever runs the site. */
export function isUnreachable(error: unknown): boolean {
  if (!(isFailedQuery(error) || error instanceof NoDatabaseError)) return false;
  console.error('The release could not be read:', error.cause ?? error.message);
  return true;
}

/** By its shape: the server around the bundled pages has a copy of the library, and so a class, of its own. */
function isFailedQuery(error: unknown): error is Error {
  return error instanceof Error && 'query' in error && 'params' in error;
}
