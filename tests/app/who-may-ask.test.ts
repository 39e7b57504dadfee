import type { IncomingMessage } from 'node:http';
import { describe, expect, it } from 'vitest';
import { addressFor, describeRequest, refusalOf } from '@/scripts/serve/who-may-ask';

const request = (method: string, headers: Record<string, string> = {}) =>
  ({
    method,
    headers: { host: 'staff.example.org', ...headers },
    socket: {},
    url: '/staff',
  }) as IncomingMessage;
const status = (asked: IncomingMessage, side: 'public' | 'staff') =>
  refusalOf(asked, '/staff', side)?.status ?? 200;

describe('a request', () => {
  it('to change something is taken by the staff side from its own pages alone', () => {
    const own = { origin: 'https://staff.example.org' };
    expect(status(request('POST', { ...own, 'sec-fetch-site': 'same-origin' }), 'staff')).toBe(200);
    expect(status(request('POST', own), 'staff')).toBe(200);
    const foreign: Record<string, string>[] = [
      {},
      { origin: 'null' },
      { origin: 'https://staff.example.org.example.com' },
      { origin: 'https://staff.example.org:8443' },
      { ...own, 'sec-fetch-site': 'same-site' },
      { ...own, 'sec-fetch-site': 'cross-site' },
    ];
    for (const headers of foreign) {
      expect(status(request('POST', headers), 'staff'), JSON.stringify(headers)).toBe(403);
    }
    for (const method of ['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE'])
      expect(status(request(method, own), 'staff')).toBe(405);
    expect(status(request('POST', own), 'public')).toBe(405);
  });

  it('is told apart by the address that our own server saw, or our own proxy', () => {
    const from = (headers: Record<string, string>, behindProxy: boolean) => {
      const asked = request('GET', headers);
      Object.assign(asked.socket, { remoteAddress: '192.0.2.1' });
      describeRequest(asked, behindProxy);
      return asked.headers['x-fencerow-client'];
    };
    const claims = { 'x-fencerow-client': '203.0.113.9', 'x-forwarded-for': '203.0.113.9, 198.51.100.7' };
    expect(from(claims, false)).toBe('192.0.2.1');
    expect(from(claims, true)).toBe('198.51.100.7');
    expect(from({}, true)).toBe('192.0.2.1');
  });
});

describe('an address', () => {
  it('of the other site is no page here', () => {
    expect(addressFor('/staff/people?x=1', '/staff/people', 'public')).toBe('/no-such-page');
    expect(addressFor('/%73taff', '/%73taff', 'public')).toBe('/no-such-page');
    expect(addressFor('/staffing', '/staffing', 'public')).toBe('/staffing');
    expect(addressFor('/', '/', 'staff')).toBe('/staff');
    expect(addressFor('/counties/31145', '/counties/31145', 'staff')).toBe('/staff/no-such-page');
    expect(addressFor('/staff/people?x=1', '/staff/people', 'staff')).toBe('/staff/people?x=1');
  });
});
