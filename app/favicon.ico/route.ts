/** Browsers that look for the old address find the mark. */
export function GET(): Response {
  return new Response(null, { status: 301, headers: { Location: '/mark.svg' } });
}
