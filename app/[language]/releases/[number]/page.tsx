import { NoRelease } from '@/app/components/no-release';
import { ReleasePage } from '@/app/components/release-page';
import { Unreachable } from '@/app/components/unreachable';
import { asAsked } from '@/app/view/as-asked';
import { readRelease } from '@/app/view/read-releases';
import { readSpeech } from '@/app/view/read-speech';

/** One release: what changed, what it holds, its files, how to cite it; or why it was taken back. */
export default async function Page({ params }: { params: Promise<{ language: string; number: string }> }) {
  const speech = await readSpeech(params);
  const asked = asAsked((await params).number);
  const reading = await readRelease(asked);
  if (reading.state === 'unreachable') return <Unreachable speech={speech} />;
  if (reading.state === 'ready') return <ReleasePage speech={speech} {...reading} />;
  return <NoRelease speech={speech} asked={asked} reading={reading} />;
}
