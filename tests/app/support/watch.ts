import type { BrowserContext } from 'playwright-core';

export interface Watch {
  /** Text of every response but scripts, styles and images, with its address. */
  bodies(): Promise<{ url: string; text: string }[]>;
  /** Addresses asked for on other hosts. */
  foreign: string[];
  /** Errors of pages and what the policy refused. */
  complaints: string[];
}

/** Watches all that a browser loads, workers included, and all that it complains of. */
export function watch(context: BrowserContext, home: string): Watch {
  const pending: Promise<{ url: string; text: string } | null>[] = [];
  const foreign: string[] = [];
  const complaints: string[] = [];
  context.on('request', (request) => {
    const { protocol, origin } = new URL(request.url());
    if (protocol.startsWith('http') && origin !== home) foreign.push(request.url());
  });
  context.on('response', (response) => {
    if (/javascript|css|image/.test(response.headers()['content-type'] ?? '')) return;
    const url = response.url();
    pending.push(
      response.text().then(
        (text) => ({ url, text }),
        () => null,
      ),
    );
  });
  context.on('weberror', (error) => complaints.push(String(error.error())));
  context.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  return {
    bodies: async () => (await Promise.all(pending)).filter((body) => body !== null),
    foreign,
    complaints,
  };
}
