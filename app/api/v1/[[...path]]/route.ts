import { answer } from '@/app/api/answer';
import { Problem, problemResponse } from '@/app/api/problem';
import { publicDatabase } from '@/app/database';
import { isUnreachable } from '@/app/view/or-unreachable';

interface Params {
  params: Promise<{ path?: string[] }>;
}

/** Whoever asks, from wherever: everything here is public. ETag, 304, HEAD and compression are the server's. */
export async function GET(request: Request, { params }: Params): Promise<Response> {
  const { path = [] } = await params;
  const { pathname, searchParams } = new URL(request.url);
  try {
    const accept = request.headers.get('accept');
    const { media, text, isForEver } = await answer({
      db: publicDatabase(),
      path,
      parameters: searchParams,
      accept,
    });
    const headers = {
      'Content-Type': `${media}; charset=utf-8`,
      'Cache-Control': isForEver ? 'public, max-age=86400' : 'public, max-age=60',
      Vary: 'Accept',
    };
    return withCors(new Response(text, { headers }));
  } catch (error) {
    return withCors(problemResponse(problemOf(error), pathname));
  }
}

export function OPTIONS(): Response {
  return withCors(new Response(null, { status: 204 }));
}

function problemOf(error: unknown): Problem {
  if (error instanceof Problem) return error;
  if (isUnreachable(error)) {
    return new Problem(
      503,
      'Not available',
      'The releases cannot be read at this moment. Try again in a minute.',
    );
  }
  throw error;
}

function withCors(response: Response): Response {
  response.headers.set('Access-Control-Allow-Origin', '*');
  response.headers.set('Access-Control-Allow-Methods', 'GET, HEAD, OPTIONS');
  response.headers.set('Access-Control-Allow-Headers', 'Accept, If-None-Match');
  response.headers.set('Access-Control-Expose-Headers', 'ETag');
  return response;
}
