import { pictureResponse } from '@/app/view/picture-response';
import { renderPng } from '@/app/view/render-png';

/** The same picture as `map.svg`, as PNG. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ number: string }> },
): Promise<Response> {
  return pictureResponse(request, (await params).number, {
    ending: 'png',
    mediaType: 'image/png',
    encode: renderPng,
  });
}
