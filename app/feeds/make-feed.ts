import { Feed } from 'feed';
import type { PublicDatabase } from '@/db/clients/public';
import { findings, latestRelease, listReleases } from '@/db/repositories/published';
import type { Finding } from '@/lib/findings/types';
import { areaOfCounty, findAreas } from '@/lib/geography/areas';
import type { ReleaseHead } from '@/lib/release/types';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { groupName } from '@/lib/vocabulary/groups';
import { commonNameOf } from '@/lib/vocabulary/species';
import { sentenceStart } from '../messages/format';
import { regionOf } from '../region';

export interface FeedOrder {
  db: PublicDatabase;
  /** As `https://host`, from where the feed is read. */
  origin: string;
  /** Path of the feed itself. */
  path: string;
}

/** What was published, corrected and withdrawn, newest first. */
export async function releasesFeed({ db, origin, path }: FeedOrder): Promise<string> {
  const list = await listReleases(db);
  const head = await latestRelease(db);
  const newest = list
    .flatMap((one) => [one.date, ...one.errata.map(({ date }) => date)])
    .sort()
    .at(-1);
  const feed = start({ origin, path, head, title: 'Releases', newest: newest ?? '1970-01-01' });
  for (const { number, date, note, withdrawn, errata } of list) {
    const link = `${origin}/releases/${number}`;
    for (const erratum of errata)
      feed.addItem({
        ...{
          id: `${link}#erratum-${erratum.number}`,
          link: `${origin}/releases/${number}/${erratum.file.name}`,
        },
        title: `Erratum ${erratum.number} to release ${number}`,
        date: day(erratum.date),
        content: text([erratum.text]),
      });
    feed.addItem({
      ...{ id: link, link: `${origin}/`, date: withdrawn ? new Date(withdrawn.at) : day(date) },
      title: withdrawn ? `Release ${number} was withdrawn` : `Release ${number}`,
      content: text([
        withdrawn ? withdrawn.note : note,
        withdrawn ? '' : `What changed stands among its files.`,
      ]),
    });
  }
  return feed.atom1();
}

/**
 * What the newest release says of one county: first finds there, in the area that it is counted in, and in its district.
 * @returns null for a county that is not of the region, or where nothing is published
 */
export async function countyFeed(order: FeedOrder, fips: string): Promise<string | null> {
  const head = await latestRelease(order.db);
  const county = head && regionOf(head).counties.find((one) => one.fips === fips);
  if (!head || !county) return null;
  const found: Finding[] = [];
  for (const pair of head.pairs) {
    const places = new Set([
      fips,
      county.district,
      ...head.windows.map(({ first }) => areaOfCounty(findAreas(head.areas, pair.species, first)).get(fips)),
    ]);
    const own = await findings(order.db, head.number, pair);
    found.push(...own.filter((one) => one.kind === 'first detection' && places.has(one.place)));
  }
  const title = `${county.fullName}, ${county.state}`;
  return ofFindings(order, head, {
    title,
    found,
    page: `/?place=${fips}`,
    nothing: 'No first find is shown here.',
  });
}

/**
 * What the newest release concludes of one species and group.
 * @returns null where it was not screened, or nothing is published
 */
export async function pairFeed(order: FeedOrder, species: string, group: number): Promise<string | null> {
  const head = await latestRelease(order.db);
  const pair = head?.pairs.find((one) => one.species === species && one.group === group);
  if (!head || !pair) return null;
  const last = head.windows.at(-1);
  const all = await findings(order.db, head.number, pair);
  const found = all.filter((one) => !('period' in one) || (last && one.period.last >= last.first));
  const title = `${sentenceStart(commonNameOf(species))}, group ${group} (${groupName(group)})`;
  const page = `/?species=${species}&group=${group}`;
  return ofFindings(order, head, { title, found, page, nothing: 'Nothing can be concluded yet.' });
}

function ofFindings(
  { origin, path }: FeedOrder,
  head: ReleaseHead,
  {
    title,
    found,
    page,
    nothing,
  }: { title: string; found: readonly Finding[]; page: string; nothing: string },
): string {
  const feed = start({ origin, path, head, title, newest: head.date });
  const date = day(head.date);
  const link = `${origin}${page}`;
  if (found.length === 0)
    feed.addItem({
      id: `${origin}${path}#${head.number}`,
      link,
      date,
      title: nothing,
      content: text([nothing]),
    });
  found.forEach((finding, i) => {
    feed.addItem({
      id: `${origin}${path}#${head.number}-${i + 1}`,
      ...{ link, date },
      title: `${sentenceStart(commonNameOf(finding.species))}, group ${finding.group}: ${finding.kind}`,
      content: text([sentenceStart(finding.sentence)]),
    });
  });
  return feed.atom1();
}

function start({
  origin,
  path,
  head,
  title,
  newest,
}: {
  origin: string;
  path: string;
  head: ReleaseHead | null;
  title: string;
  newest: string;
}): Feed {
  const notice = head?.simulated ? ` · ${SIMULATED_NOTICE}` : '';
  return new Feed({
    id: `${origin}${path}`,
    link: `${origin}/`,
    title: `${title}${head ? ` · ${head.programme}` : ''}`,
    description: `${CAUTIONS[0]}${notice}`,
    updated: day(newest),
    copyright: '',
    feedLinks: { atom: `${origin}${path}` },
    author: { name: head?.programme ?? 'Fencerow' },
  });
}

/** Of the text, what a feed reader shows: paragraphs, with the standing cautions below. */
function text(paragraphs: readonly string[]): string {
  const escaped = (value: string) =>
    value.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]!);
  return [...paragraphs.filter((one) => one !== ''), ...CAUTIONS]
    .map((one) => `<p>${escaped(one)}</p>`)
    .join('');
}

function day(iso: string): Date {
  return new Date(`${iso}T00:00:00Z`);
}
