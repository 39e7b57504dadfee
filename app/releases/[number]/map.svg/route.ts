import { pictureResponse } from '@/app/view/picture-response';

/** The map of a view with its legend, source and cautions, as SVG: `/releases/1/map.svg?species=KCHSC&group=9`. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ number: string }> },
): Promise<Response> {
  return pictureResponse(request, (await params).number, {
    ending: 'svg',
    mediaType: 'image/svg+xml; charset=utf-8',
    encode: async (svg) => new TextEncoder().encode(`<?xml version="1.0" encoding="UTF-8"?>\n${svg}\n`),
  });
}
