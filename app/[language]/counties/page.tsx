import { redirect } from 'next/navigation';
import { Cautions } from '@/app/components/cautions';
import { CountyList } from '@/app/components/county-list';
import { Empty } from '@/app/components/empty';
import { Masthead } from '@/app/components/masthead';
import { PlaceSearch } from '@/app/components/place-search';
import { Unreachable } from '@/app/components/unreachable';
import { type Parameters, parseView } from '@/app/view/parse-view';
import { readHead } from '@/app/view/read-head';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';

/** All counties of the region, and a search among them: what is found by address leads to its page. */
export default async function Page({
  params,
  searchParams,
}: LanguageParams & { searchParams: Promise<Parameters> }) {
  const speech = await readSpeech(params);
  const reading = await readHead();
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  const { head, region } = reading;
  const { texts, at } = speech;
  const { find } = await searchParams;
  const { view, misfits } = parseView({ find }, head, region);
  if (/^\d{5}$/.test(view.place)) redirect(at(`/counties/${view.place}`));
  return (
    <>
      <title>{`${texts.nav.counties} · ${head.region} · ${texts.name}`}</title>
      <Masthead speech={speech} here="/counties" programme={head.programme} simulated={head.simulated} />
      <main id="content" className="notice">
        <h1>{texts.county.all(region.name)}</h1>
        {misfits.map((misfit) => (
          <p key={misfit.parameter} className="misfits" role="status">
            {misfit.several ? texts.say.misfitWords(misfit) : texts.county.unknown(misfit.asked.slice(0, 60))}
          </p>
        ))}
        <PlaceSearch
          action={at('/counties')}
          kept={{}}
          leadsTo={at('/counties/FIPS')}
          names={`/outlines/${head.number}-names.json`}
          texts={texts.layers.search}
        />
        <p>{texts.county.there(region.name)}</p>
        <CountyList speech={speech} region={region} />
        <Cautions speech={speech} />
      </main>
    </>
  );
}
