import { connect } from 'node:net';

const PATIENCE_MS = 10_000;
/** PostgreSQL's SSLRequest message: length 8, code 80877103 (protocol documentation, “Message Formats”). */
const SSL_REQUEST = Buffer.from([0, 0, 0, 8, 4, 210, 22, 47]);

/**
 * Asks whether a PostgreSQL answers at the address of a URL: every one answers an SSLRequest with one letter. Needed
 * because the driver tries again without end where something else accepts a connection and closes it.
 * Addresses that name several hosts or a local socket are left to the driver.
 * Errors: those of the socket (ECONNREFUSED, ENOTFOUND …), or one with the code CONNECTION_CLOSED.
 */
export async function expectPostgres(url: string): Promise<void> {
  const { hostname, port } = new URL(url);
  if (hostname === '' || hostname.includes(',') || hostname.includes('%2F')) return;
  const host = hostname.replace(/^\[(.*)\]$/, '$1');
  await new Promise<void>((resolve, reject) => {
    const socket = connect({ host, port: Number(port || 5432) }, () => socket.write(SSL_REQUEST));
    const refuse = () => {
      socket.destroy();
      reject(Object.assign(new Error('no PostgreSQL answers there'), { code: 'CONNECTION_CLOSED' }));
    };
    socket.setTimeout(PATIENCE_MS, refuse);
    socket.once('error', reject);
    socket.once('close', refuse);
    socket.once('data', (answer) => {
      if (!['S', 'N', 'E'].includes(String.fromCharCode(answer[0] ?? 0))) return refuse();
      socket.off('close', refuse);
      socket.destroy();
      resolve();
    });
  });
}
