import type { IncomingMessage, ServerResponse } from 'node:http';
import { describe, expect, it } from 'vitest';
import type { Captured } from '@/scripts/serve/captured-response';
import { keepPages } from '@/scripts/serve/kept-pages';

const HTML = { 'content-type': 'text/html; charset=utf-8' };

describe('kept pages', () => {
  it('are made once for each address and kind of answer', async () => {
    const site = visited();
    const first = await site.ask('/');
    expect(await site.ask('/')).toEqual(first);
    await site.ask('/?place=NE');
    await site.ask('/', { rsc: '1' });
    await site.ask('/', { host: 'elsewhere.example' });
    expect(site.made).toEqual(['/', '/?place=NE', '/', '/']);
  });

  it('carry the headers that they were made with', async () => {
    const site = visited();
    await site.ask('/');
    await site.ask('/');
    expect(site.headers).toEqual(HTML);
  });

  it('are made anew when a release is published, withdrawn or noted upon', async () => {
    const site = visited();
    await site.ask('/');
    site.state = 'release 2';
    await site.ask('/');
    await site.ask('/');
    expect(site.made).toHaveLength(2);
  });

  it('are not kept where the releases changed while they were made', async () => {
    const site = visited({
      make: () => {
        site.state = 'release 2';
        return page('of release 1 or 2');
      },
    });
    await site.ask('/');
    await site.ask('/');
    await site.ask('/');
    expect(site.made).toHaveLength(2);
  });

  it('are neither kept nor given while the releases cannot be asked for', async () => {
    const site = visited();
    site.state = null;
    await site.ask('/');
    await site.ask('/');
    expect(site.made).toHaveLength(2);
  });

  it('are not kept where they tell of a failure', async () => {
    for (const body of [
      '<head><meta name="status" content="503"/></head>',
      '9:["$","meta",null,{"name":"status","content":"404"}]',
      '<script>self.__next_f.push([1,"9:E{\\"digest\\":\\"1\\"}"])</script>',
      'a:E{"digest":"1"}',
    ]) {
      const site = visited({ make: () => page(body) });
      await site.ask('/');
      await site.ask('/');
      expect(site.made, body).toHaveLength(2);
    }
  });

  it('are not kept where they are no page or no success', async () => {
    for (const other of [
      { ...page('[]'), headers: { 'content-type': 'application/json' } },
      { ...page('no'), status: 404 },
      { ...page('hello'), headers: { ...HTML, 'set-cookie': ['a=b'] } },
    ]) {
      const site = visited({ make: () => other });
      await site.ask('/');
      await site.ask('/');
      expect(site.made).toHaveLength(2);
    }
  });

  it('give way to later ones before they fill the memory', async () => {
    const site = visited({ make: () => page('x'.repeat(20)), mostBytes: 48 });
    for (const path of ['/1', '/2', '/1', '/3']) await site.ask(path);
    await site.ask('/1');
    expect(site.made).toEqual(['/1', '/2', '/3']);
    await site.ask('/2');
    expect(site.made).toHaveLength(4);
  });
});

function page(body: string): Captured {
  return { status: 200, headers: HTML, body: Buffer.from(body) };
}

function visited({
  make = () => page('hello'),
  mostBytes,
}: {
  make?: () => Captured;
  mostBytes?: number;
} = {}) {
  const site = {
    state: 'release 1' as string | null,
    made: [] as string[],
    headers: {} as Record<string, unknown>,
    ask: async (url: string, headers: Record<string, string> = {}) => {
      const response = {
        setHeader: (name: string, value: unknown) => Object.assign(site.headers, { [name]: value }),
      };
      return kept(
        { url, headers } as unknown as IncomingMessage,
        response as unknown as ServerResponse,
        async () => {
          site.made.push(url);
          return make();
        },
      );
    },
  };
  const kept = keepPages(async () => {
    if (site.state === null) throw new Error('The database does not answer.');
    return site.state;
  }, mostBytes);
  return site;
}
