import { createServer } from 'node:net';
import { UserError } from '../errors';

/**
 * A port of 127.0.0.1 for the server: the wished one (`FENCEROW_DATABASE_PORT`), which must be free; else the
 * remembered one when it is free; else any.
 */
export async function choosePort(wished: number | null, remembered: number | null): Promise<number> {
  if (wished !== null) {
    if ((await free(wished)) !== null) return wished;
    throw new UserError(
      `Port ${wished} of 127.0.0.1, which FENCEROW_DATABASE_PORT names, cannot be used: another program has it, or it needs more rights.`,
      'End that program, name another port, or leave the variable away: then a free port is found.',
    );
  }
  const port = (remembered !== null ? await free(remembered) : null) ?? (await free(0));
  if (port === null) throw new Error('no free port on 127.0.0.1');
  return port;
}

/** The port when it can be listened on (0 = any), else null. */
function free(port: number): Promise<number | null> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(null));
    server.listen(port, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : null));
    });
  });
}
