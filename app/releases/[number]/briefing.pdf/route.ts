import { briefingResponse } from '@/app/view/briefing-response';

/** A board's briefing of a release: `/releases/1/briefing.pdf?species=KCHSC&group=9&group=27&window=2022-2024`. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ number: string }> },
): Promise<Response> {
  return briefingResponse(request, (await params).number, 'pdf');
}
