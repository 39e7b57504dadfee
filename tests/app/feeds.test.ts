import sax from 'sax';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSite, type Site } from './support/site';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

const get = (path: string) => fetch(`${site.url}/feeds/${path}`);

/** Text by element below `feed` or `entry`; throws where the XML is not well formed. */
function readAtom(xml: string) {
  const parser = sax.parser(true, { xmlns: true });
  const path: string[] = [];
  const feed: Record<string, string> = {};
  const entries: Record<string, string>[] = [];
  let root = '';
  parser.onerror = (error) => {
    throw error;
  };
  parser.onopentag = ({ name, ...tag }) => {
    if (path.length === 0) root = (tag as unknown as { uri: string }).uri;
    path.push(name);
    if (name === 'entry') entries.push({});
  };
  parser.onclosetag = () => path.pop();
  const add = (text: string) => {
    const to = path[1] === 'entry' ? entries.at(-1)! : feed;
    const name = path.at(-1)!;
    to[name] = (to[name] ?? '') + text;
  };
  parser.ontext = add;
  parser.oncdata = add;
  parser.write(xml).close();
  return { root, feed, entries };
}

describe.each(['releases.atom', 'KCHSC/9.atom', 'counties/31055.atom'])('the feed %s', (path) => {
  it('is Atom (RFC 4287): ids, titles and days that a reader needs, and the cautions in each entry', async () => {
    const response = await get(path);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe('application/atom+xml; charset=utf-8');
    const { root, feed, entries } = readAtom(await response.text());
    expect(root).toBe('http://www.w3.org/2005/Atom');
    expect(feed.id).toBe(`${site.url}/feeds/${path}`);
    expect(feed.title).not.toBe('');
    expect(Date.parse(feed.updated!)).not.toBeNaN();
    expect(entries.length).toBeGreaterThan(0);
    expect(new Set(entries.map(({ id }) => id)).size).toBe(entries.length);
    for (const { title, updated, content } of entries) {
      expect(title).not.toBe('');
      expect(Date.parse(updated!)).not.toBeNaN();
      expect(content).toContain('None found is not none there');
    }
  });

  it('is the same bytes each time', async () => {
    expect(await (await get(path)).text()).toBe(await (await get(path)).text());
  });
});

it.each(['nothing.atom', 'counties/99999.atom', 'ABCDE/9.atom', 'KCHSC/nine.atom', 'a/b/c.atom', 'releases'])(
  'there is no feed %s, and the answer says which there are',
  async (path) => {
    const response = await get(path);
    expect(response.status).toBe(404);
    expect(await response.text()).toContain('/feeds/releases.atom');
  },
);
