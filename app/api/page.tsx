import type { Metadata } from 'next';
import { Cautions } from '../components/cautions';
import { Masthead } from '../components/masthead';
import { en } from '../messages/en';
import { ENDPOINTS } from './endpoints';
import { openApi } from './open-api';

export const metadata: Metadata = { title: `${en.api.heading} · ${en.name}` };

interface Operation {
  parameters: {
    name: string;
    in: string;
    description?: string;
    schema: { enum?: string[]; type?: string; default?: unknown };
  }[];
}

/** What programs can ask, and a form to try each of it: the description is the one that programs read. */
export default function Page() {
  const { paths } = openApi(ENDPOINTS) as { paths: Record<string, { get: Operation }> };
  return (
    <>
      <Masthead />
      <main id="content" className="api">
        <h1>{en.api.heading}</h1>
        <p>{en.api.intro}</p>
        <p>
          <a href="/api/v1/openapi.json">{en.api.description}</a>
        </p>
        {ENDPOINTS.map(({ name, path, summary, csv }) => (
          <section key={name} aria-labelledby={`ask-${name}`}>
            <h2 id={`ask-${name}`}>
              <code>/api/v1{path}</code>
            </h2>
            <p>
              {summary}.{csv ? ` ${en.api.csv}` : ''}
            </p>
            <form method="get" action={`/api/v1${path.replace('{release}', 'latest')}`}>
              {paths[path]!.get.parameters.filter((parameter) => parameter.in === 'query').map(
                (parameter) => (
                  <Field key={parameter.name} id={`${name}-${parameter.name}`} {...parameter} />
                ),
              )}
              <button type="submit">{en.api.ask}</button>
            </form>
          </section>
        ))}
        <Cautions />
      </main>
    </>
  );
}

function Field({ id, name, description, schema }: Operation['parameters'][number] & { id: string }) {
  return (
    <div className="choice">
      <label htmlFor={id}>{name}</label>
      {schema.enum ? (
        <select id={id} name={name} defaultValue="" aria-describedby={`${id}-about`}>
          <option value="">{en.api.any}</option>
          {schema.enum.map((value) => (
            <option key={value}>{value}</option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          name={name}
          inputMode={schema.type === 'integer' ? 'numeric' : 'text'}
          placeholder={schema.default === undefined ? '' : String(schema.default)}
          aria-describedby={`${id}-about`}
        />
      )}
      <small id={`${id}-about`}>{description}</small>
    </div>
  );
}
