import { asAsked } from '@/app/view/as-asked';
import { countyHandout } from '@/app/view/county-handout';
import { documentResponse, noDocument } from '@/app/view/document-response';
import { readCounty } from '@/app/view/read-county';
import { readSpeech } from '@/app/view/read-speech';
import { handoutPdf } from '@/lib/briefing/handout-pdf';

/** The page of a county as a handout of one page: `/counties/31145/handout.pdf`, `/es/counties/31145/handout.pdf`. */
export async function GET(
  _: Request,
  { params }: { params: Promise<{ language: string; county: string }> },
): Promise<Response> {
  const speech = await readSpeech(params);
  const asked = asAsked((await params).county);
  const reading = await readCounty(asked, speech.texts.jointName);
  const { texts } = speech;
  if (reading.state === 'unreachable') return noDocument(503, texts.unreachable.text);
  if (reading.state === 'empty') return noDocument(404, texts.empty.text);
  if (reading.state === 'unknown') return noDocument(404, texts.county.unknown(asked.slice(0, 40)));
  const { report } = reading;
  const bytes = await handoutPdf(countyHandout(speech, report));
  const name = `handout-${report.county.key}-release-${report.head.number}.pdf`;
  return documentResponse(bytes, { name, mediaType: 'application/pdf' });
}
