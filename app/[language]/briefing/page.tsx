import { BriefingPage } from '@/app/components/briefing-page';
import { Empty } from '@/app/components/empty';
import { Unreachable } from '@/app/components/unreachable';
import { readHead } from '@/app/view/read-head';
import { readSpeech } from '@/app/view/read-speech';
import { parseBriefing } from '@/lib/briefing/choose';
import '@/app/styles/briefing.css';

/** Chooses a board's briefing; an unknown weed in the address is answered with the leading one. */
export default async function Page({
  params,
  searchParams,
}: {
  params: Promise<{ language: string }>;
  searchParams: Promise<{ species?: string | string[] }>;
}) {
  const speech = await readSpeech(params);
  const reading = await readHead();
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  if (reading.state === 'empty') return <Empty speech={speech} />;
  const { head, region } = reading;
  const asked = [(await searchParams).species].flat()[0];
  const nothing = { groups: [], districts: [] };
  const chosen = parseBriefing({ ...nothing, species: asked }, head, region);
  const choice = 'problem' in chosen ? parseBriefing(nothing, head, region) : chosen;
  if ('problem' in choice) return <Empty speech={speech} />;
  return <BriefingPage speech={speech} head={head} region={region} choice={choice} />;
}
