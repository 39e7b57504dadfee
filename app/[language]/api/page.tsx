import { ENDPOINTS } from '@/app/api/endpoints';
import { openApi } from '@/app/api/open-api';
import { AsTyped } from '@/app/components/as-typed';
import { Cautions } from '@/app/components/cautions';
import { Masthead } from '@/app/components/masthead';
import type { Speech } from '@/app/messages/texts';
import { type LanguageParams, readSpeech } from '@/app/view/read-speech';
import '@/app/styles/api.css';

interface Operation {
  parameters: {
    name: string;
    in: string;
    description?: string;
    schema: { enum?: string[]; type?: string; default?: unknown };
  }[];
}

/** What programs can ask, and a form to try each of it: the description is the one that programs read. */
export default async function Page({ params }: LanguageParams) {
  const speech = await readSpeech(params);
  const { texts } = speech;
  const { paths } = openApi(ENDPOINTS) as { paths: Record<string, { get: Operation }> };
  return (
    <>
      <title>{`${texts.api.heading} · ${texts.name}`}</title>
      <Masthead speech={speech} here="/api" />
      <main id="content" className="api">
        <h1>{texts.api.heading}</h1>
        <p>{texts.api.intro}</p>
        <p>
          <a href="/api/v1/openapi.json">{texts.api.description}</a>
        </p>
        {ENDPOINTS.map(({ name, path, summary, csv }) => (
          <section key={name} aria-labelledby={`ask-${name}`}>
            <h2 id={`ask-${name}`}>
              <code>/api/v1{path}</code>
            </h2>
            <p>
              <AsTyped speech={speech}>{`${summary}.`}</AsTyped>
              {csv ? ` ${texts.api.csv}` : ''}
            </p>
            <form method="get" action={`/api/v1${path.replace('{release}', 'latest')}`}>
              {paths[path]!.get.parameters.filter((parameter) => parameter.in === 'query').map(
                (parameter) => (
                  <Field
                    speech={speech}
                    key={parameter.name}
                    id={`${name}-${parameter.name}`}
                    {...parameter}
                  />
                ),
              )}
              <button type="submit">{texts.api.ask}</button>
            </form>
          </section>
        ))}
        <Cautions speech={speech} />
      </main>
    </>
  );
}

function Field({
  speech,
  id,
  name,
  description,
  schema,
}: Operation['parameters'][number] & { speech: Speech; id: string }) {
  const { texts } = speech;
  return (
    <div className="choice">
      <label htmlFor={id}>{name}</label>
      {schema.enum ? (
        <select id={id} name={name} defaultValue="" aria-describedby={`${id}-about`}>
          <option value="">{texts.api.any}</option>
          {schema.enum.map((value) => (
            <option key={value} lang="en">
              {value}
            </option>
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
      <small id={`${id}-about`}>
        {description ? <AsTyped speech={speech}>{description}</AsTyped> : null}
      </small>
    </div>
  );
}
