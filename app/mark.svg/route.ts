import { MARK_SVG } from '../components/mark-path';

export function GET(): Response {
  return new Response(MARK_SVG, {
    headers: { 'Content-Type': 'image/svg+xml', 'Cache-Control': 'public, max-age=86400' },
  });
}
