import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { dirname } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { closePublicDatabase, openPublicDatabase, publicDatabase } from '@/app/database';
import { UserError } from '@/db/errors';
import { openDatabase } from '@/db/open';
import { releasesState } from '@/db/repositories/published';
import { closeStaffSide, openStaffSide, type StaffSettings } from '@/lib/access/staff-side';
import { type Captured, captureResponse } from './serve/captured-response';
import { ensureBuild } from './serve/ensure-build';
import { keepPages } from './serve/kept-pages';
import { paintFirst } from './serve/paint-first';
import { sendCaptured, sendPlain, sendPrivate, sendStatic, setPrivateHeaders } from './serve/send';
import { loadStatic } from './serve/static-files';
import { wellEncoded } from './serve/well-encoded';
import { addressFor, describeRequest, refusalOf, type Side } from './serve/who-may-ask';

const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));
const LONGEST_ADDRESS = 4_000;
/** Longer ones are read too, so that whoever followed one gets a page that says what is wrong. */
const LONGEST_HEADER = 160_000;
/** Milliseconds for a whole request: a page is asked for at once, a sheet takes its time. */
const LONGEST_REQUEST: Record<Side, number> = { public: 30_000, staff: 1_800_000 };

export interface ServerOptions {
  /** 0 chooses a free one. Default 3000. */
  port?: number;
  /** Default 127.0.0.1: this machine only. */
  host?: string;
  /** Address of the database for the public role; default: the environment's FENCEROW_PUBLIC_URL. */
  publicUrl?: string;
  /** Serves the staff side in place of the public site. Its address, where it is not given, is the one listened at. */
  staff?: Omit<StaffSettings, 'address'> & { address?: string; behindProxy?: boolean };
  /** Told what is being done, stage by stage. */
  say?: (text: string) => void;
}

export interface RunningServer {
  /** Address to open, without a slash at its end. */
  url: string;
  port: number;
  /** Answers what is under way (5 s at most), then stops. */
  close(): Promise<void>;
}

/**
 * Builds the site where that is needed and serves it.
 *
 * @throws UserError where the port is taken or may not be used, or the site cannot be built
 */
export async function startServer(options: ServerOptions = {}): Promise<RunningServer> {
  const { port = 3000, host = '127.0.0.1', publicUrl, staff, say } = options;
  const side: Side = staff ? 'staff' : 'public';
  Object.assign(process.env, { NODE_ENV: 'production', NEXT_TELEMETRY_DISABLED: '1' });
  const freePort = await checkPort(port, host);
  await ensureBuild(ROOT, say);
  const { default: next } = await import('next');
  const site = next({ dev: false, dir: ROOT, quiet: true, hostname: host, port: freePort });
  await site.prepare();
  if (publicUrl) openPublicDatabase(publicUrl);
  const server = createServer(
    { maxHeaderSize: side === 'public' ? LONGEST_HEADER : 16_384 },
    listener(site.getRequestHandler(), side, staff?.behindProxy ?? false),
  );
  Object.assign(server, {
    requestTimeout: LONGEST_REQUEST[side],
    headersTimeout: 10_000,
    keepAliveTimeout: 5_000,
  });
  server.on('clientError', refuse);
  await listen(server, freePort, host);
  const { port: chosen } = server.address() as AddressInfo;
  const url = `http://${host.includes(':') ? `[${host}]` : host}:${chosen}`;
  if (staff) openStaffSide({ ...staff, address: staff.address ?? url });
  return {
    url,
    port: chosen,
    close: async () => {
      await stop(server);
      await site.close();
      await closePublicDatabase();
      await closeStaffSide();
    },
  };
}

/** Addresses that programs ask for. */
const NO_PAGE = /^\/(?:_next|api\/v1|feeds|outlines|releases\/\d+\/.)/;

const painted = (page: Captured | null) => page && paintFirst(page);

type Handler = (request: IncomingMessage, response: ServerResponse) => Promise<void>;

function listener(handle: Handler, side: Side, behindProxy: boolean) {
  const files = loadStatic(ROOT);
  const send = side === 'staff' ? sendPrivate : sendCaptured;
  const kept = keepPages(async () => releasesState(publicDatabase()));
  return async (request: IncomingMessage, response: ServerResponse) => {
    const address = wellEncoded(request.url ?? '/');
    const path = address.split('?', 1)[0]!;
    const { method } = request;
    const refusal = refusalOf(request, path, side);
    if (refusal) {
      if (refusal.allow) response.setHeader('Allow', refusal.allow);
      response.setHeader('Connection', 'close');
      return sendPlain(request, response, refusal.status, refusal.words);
    }
    const isTooLong = address.length > LONGEST_ADDRESS;
    if (isTooLong && (side === 'staff' || NO_PAGE.test(path) || path.length > LONGEST_ADDRESS)) {
      return sendPlain(
        request,
        response,
        414,
        'This address is too long. Start again from the front page, /',
      );
    }
    const file = files.get(path);
    if (file) return sendStatic(request, response, file);
    if (path.startsWith('/_next/')) return sendPlain(request, response, 404, 'There is no such file.');
    try {
      // A HEAD is answered like the GET, so that both give the same ETag and length; `send` leaves the body out.
      if (method === 'HEAD') request.method = 'GET';
      const page = path === '/es' || path.startsWith('/es/') ? '/es/too-long' : '/too-long';
      request.url = isTooLong ? page : addressFor(address, path, side);
      if (side === 'staff') describeRequest(request, behindProxy);
      const ownStream = side === 'staff' ? setPrivateHeaders : undefined;
      const make = () => captureResponse(response, () => handle(request, response), ownStream);
      const isPublicPage = side === 'public' && !NO_PAGE.test(path);
      const whole = await (isPublicPage ? kept(request, response, () => make().then(painted)) : make());
      request.method = method;
      if (whole) await send(request, response, whole);
    } catch (error) {
      process.stderr.write(`${method} ${path}: ${error instanceof Error ? error.stack : String(error)}\n`);
      if (!response.headersSent) sendPlain(request, response, 500, 'Something went wrong on this server.');
    }
  };
}

/**
 * Learns of a taken port before the work, not after. Returns the port, a free one for 0.
 *
 * @throws UserError where the port is taken or may not be used
 */
export async function checkPort(port: number, host: string): Promise<number> {
  const probe = createServer();
  await listen(probe, port, host);
  const { port: free } = probe.address() as AddressInfo;
  await new Promise((resolve) => probe.close(resolve));
  return free;
}

function listen(server: Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(explain(error, port, host)));
    server.listen(port, host, () => resolve());
  });
}

function explain(error: NodeJS.ErrnoException, port: number, host: string): Error {
  const remedy = `Choose another, for example: npm start -- --port ${port + 1}`;
  if (error.code === 'EADDRINUSE') {
    return new UserError(`Port ${port} of ${host} is in use by another program.`, remedy, { cause: error });
  }
  if (error.code === 'EACCES') {
    return new UserError(`Port ${port} may not be used by this user.`, remedy, { cause: error });
  }
  if (error.code === 'EADDRNOTAVAIL') {
    return new UserError(`${host} is no address of this machine.`, 'Use --host 127.0.0.1 or --host 0.0.0.0.');
  }
  return error;
}

/** An answer to what is no HTTP request, or one with too long a header. */
function refuse(error: NodeJS.ErrnoException, socket: import('node:stream').Duplex) {
  if (!socket.writable) return;
  // Browsers keep a connection in reserve: answered when it has waited too long, it would be taken for the answer to what
  // is asked on it next. Closed in silence, they open another.
  if (error.code === 'ERR_HTTP_REQUEST_TIMEOUT') {
    socket.destroy();
    return;
  }
  const status =
    error.code === 'HPE_HEADER_OVERFLOW' ? '431 Request Header Fields Too Large' : '400 Bad Request';
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
}

async function stop(server: Server): Promise<void> {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  server.closeIdleConnections();
  const timer = setTimeout(() => server.closeAllConnections(), 5_000);
  await closed;
  clearTimeout(timer);
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { port: { type: 'string' }, host: { type: 'string' } } });
  const port = Number(values.port ?? process.env.PORT ?? 3000);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    throw new UserError(
      `${values.port ?? process.env.PORT} is no port.`,
      'Give a whole number from 0 to 65535.',
    );
  }
  const host = values.host ?? process.env.HOST;
  const say = (text: string) => process.stderr.write(`  ${text} …\n`);
  // Where no address of the public role is given, the project's database is opened, and stopped with the site.
  const database = process.env.FENCEROW_PUBLIC_URL ? null : await openDatabase({ log: say });
  const server = await startServer({ port, host, publicUrl: database?.publicUrl, say });
  process.stdout.write(`Fencerow is at ${server.url}\n`);
  let stopping = false;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      if (stopping) process.exit(1);
      stopping = true;
      server
        .close()
        .then(() => database?.stop())
        .then(() => process.exit(0));
    });
  }
}

/** A person can mend a wrong option or a taken port by its message; anything else needs to be looked into. */
function wordsFor(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  if (error instanceof UserError || code.startsWith('ERR_PARSE_ARGS')) return (error as Error).message;
  return error instanceof Error ? String(error.stack) : String(error);
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  main().catch((error: unknown) => {
    process.stderr.write(`${wordsFor(error)}\n`);
    process.exit(1);
  });
}
