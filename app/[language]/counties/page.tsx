import { Cautions } from '@/app/components/cautions';
import { CountyList } from '@/app/components/county-list';
import { Empty } from '@/app/components/empty';
import { Masthead } from '@/app/components/masthead';
import { Unreachable } from '@/app/components/unreachable';
import { readHead } from '@/app/view/read-head';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';

/** All counties of the region. */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const reading = await readHead();
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  const { head, region } = reading;
  const { texts } = speech;
  return (
    <>
      <title>{`${texts.nav.counties} · ${head.region} · ${texts.name}`}</title>
      <Masthead speech={speech} here="/counties" programme={head.programme} simulated={head.simulated} />
      <main id="content" className="notice">
        <h1>{texts.county.all(region.name)}</h1>
        <p>{texts.county.there(region.name)}</p>
        <CountyList speech={speech} region={region} />
        <Cautions speech={speech} />
      </main>
    </>
  );
}
