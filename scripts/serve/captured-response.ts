import type { OutgoingHttpHeaders, ServerResponse } from 'node:http';

/** What a handler meant to send. */
export interface Captured {
  status: number;
  headers: OutgoingHttpHeaders;
  body: Buffer;
}

/** How a route says that its body is to be sent while it is made. */
export const BODY_STREAM = 'x-body-stream';

/**
 * Runs a handler and holds back all that it writes to a response until it ends it, so that hash, length and encoding
 * can be settled from the whole body. Nothing has been sent when this resolves; the handler itself may wait for that.
 * A body that asks to be sent while it is made is not held back.
 *
 * @param onStream sets what such an answer carries besides, before its first byte; without it all is held back
 * @returns null where the handler sends by itself
 */
export function captureResponse(
  response: ServerResponse,
  handle: () => Promise<void>,
  onStream?: (response: ServerResponse) => void,
): Promise<Captured | null> {
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    const keep = (chunk: unknown, encoding?: unknown) => {
      if (typeof chunk === 'string') {
        chunks.push(Buffer.from(chunk, typeof encoding === 'string' ? (encoding as BufferEncoding) : 'utf8'));
      } else if (chunk instanceof Uint8Array) chunks.push(Buffer.from(chunk));
    };
    const called = (...args: unknown[]) => {
      const callback = args.find((arg) => typeof arg === 'function') as (() => void) | undefined;
      if (callback) queueMicrotask(callback);
    };
    let ended = false;
    const overrides = {
      flushHeaders() {
        if (onStream && response.hasHeader(BODY_STREAM)) stream();
      },
      writeHead(status: number, ...rest: unknown[]) {
        response.statusCode = status;
        const headers = rest.find((arg) => arg !== null && typeof arg === 'object') as
          | OutgoingHttpHeaders
          | undefined;
        for (const [name, value] of Object.entries(headers ?? {})) {
          if (value !== undefined) response.setHeader(name, value);
        }
        return response;
      },
      write(chunk: unknown, ...rest: unknown[]) {
        if (onStream && response.hasHeader(BODY_STREAM)) {
          stream();
          return response.write(chunk as string, ...(rest as []));
        }
        keep(chunk, rest[0]);
        called(...rest);
        return true;
      },
      end(...args: unknown[]) {
        if (ended) return response;
        ended = true;
        keep(args[0], args[1]);
        called(...args);
        release();
        resolve({ status: response.statusCode, headers: response.getHeaders(), body: Buffer.concat(chunks) });
        return response;
      },
    };
    const release = () => {
      for (const name of Object.keys(overrides)) Reflect.deleteProperty(response, name);
    };
    const stream = () => {
      release();
      response.removeHeader(BODY_STREAM);
      onStream?.(response);
      resolve(null);
    };
    Object.assign(response, overrides);
    handle().catch(reject);
  });
}
