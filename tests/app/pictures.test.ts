import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, type Site } from './support/site';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 300_000);
afterAll(() => site?.close());

const get = (path: string) => fetch(site.url + path);
const VIEW = 'species=KCHSC&group=9&window=2022-2024&by=county';

describe('the picture of a view', () => {
  it('is an SVG of the release, with its words in the language that is asked for, and kept for ever', async () => {
    const answer = await get(`/releases/1/map.svg?${VIEW}&layer=found&language=es`);
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toMatch(/^image\/svg\+xml/);
    expect(answer.headers.get('cache-control')).toContain('immutable');
    const svg = await answer.text();
    expect(svg).toContain('Primer hallazgo por condado');
    expect(svg).toContain('Publicación 1');
    expect(svg).toMatch(/Datos simulados/);
    expect(svg).not.toMatch(/ style=|<script| href=/);
    expect(await (await get(`/releases/1/map.svg?${VIEW}&layer=found&language=es`)).text()).toBe(svg);
  });

  it('is a PNG twice as wide, the same bytes each time', async () => {
    const [a, b] = await Promise.all(
      [1, 2].map(async () => Buffer.from(await (await get(`/releases/1/map.png?${VIEW}`)).arrayBuffer())),
    );
    expect(a!.subarray(1, 4).toString()).toBe('PNG');
    expect(a!.readUInt32BE(16)).toBe(2 * 1040);
    expect(a!.equals(b!)).toBe(true);
  });

  it('is refused in words where the release has no such thing, for a kept address must not show another', async () => {
    for (const [path, why] of [
      [`/releases/1/map.svg?species=XXXXX`, 'no weed “XXXXX”'],
      [`/releases/1/map.png?${VIEW}&layer=heat`, 'no layer of the map “heat”'],
      [`/releases/9/map.svg?${VIEW}`, 'no such release'],
      [`/releases/1/map.svg?${VIEW}&language=xx`, 'no such language'],
    ] as const) {
      const answer = await get(path);
      expect(answer.status, path).toBe(404);
      expect(await answer.text()).toContain(why);
    }
  });
});

describe('an address with a release', () => {
  it('opens it, and a page with those that stand where there is none', async () => {
    expect((await get(`/?${VIEW}&release=1`)).status).toBe(200);
    for (const release of ['7', 'x', '-1', '1.0']) {
      const answer = await get(`/?release=${release}`);
      expect(answer.status, release).toBe(404);
      expect(await answer.text()).toContain('/releases/1');
    }
  });
});
