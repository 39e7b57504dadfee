import { CountyPage } from '@/app/components/county-page';
import { Empty } from '@/app/components/empty';
import { UnknownCounty } from '@/app/components/unknown-county';
import { Unreachable } from '@/app/components/unreachable';
import { asAsked } from '@/app/view/as-asked';
import { readCounty } from '@/app/view/read-county';
import { readSpeech } from '@/app/view/read-speech';

/** One county: what is public there and next door, how sure that is, and what to do before and after sending seed. */
export default async function Page({ params }: { params: Promise<{ language: string; county: string }> }) {
  const speech = await readSpeech(params);
  const asked = asAsked((await params).county);
  const reading = await readCounty(asked, speech.texts.jointName);
  if (reading.state === 'empty') return <Empty speech={speech} />;
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  if (reading.state === 'unknown') {
    return <UnknownCounty speech={speech} asked={asked} {...reading} />;
  }
  return <CountyPage speech={speech} report={reading.report} />;
}
