/** What a request gets that cannot be answered, as RFC 9457 (problem details for HTTP APIs) says it. */
export class Problem extends Error {
  constructor(
    readonly status: 400 | 404 | 406 | 410 | 503,
    readonly title: string,
    readonly detail: string,
    /** Parameters of the query that are wrong, and how. */
    readonly parameters: readonly { name: string; message: string }[] = [],
  ) {
    super(detail);
  }
}

export function problemResponse({ status, title, detail, parameters }: Problem, instance: string): Response {
  const body = {
    type: 'about:blank',
    ...{ title, status, detail, instance },
    ...(parameters.length > 0 && { parameters }),
  };
  return new Response(`${JSON.stringify(body, null, 1)}\n`, {
    status,
    headers: { 'Content-Type': 'application/problem+json; charset=utf-8', 'Cache-Control': 'no-store' },
  });
}
