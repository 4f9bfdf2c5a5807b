/** Downloads: reports to print or send, and data in open formats. */
import type { VNode } from 'preact';
import type { CompareOptions } from '../../addresses/compare-route.ts';
import { translateCompare } from '../../language/catalogue.ts';
import { paper } from '../../preferences/paper-size.ts';
import { language } from '../../preferences/preferences.ts';
import { type ComparedIds, comparisonQuery } from '../../requests/comparisons.ts';
import { linkTo } from '../../requests/http.ts';
import { Choice } from '../forms/field.tsx';

interface File {
  readonly href: string;
  readonly text: string;
}

/** Reports of a comparison. */
export function ComparisonFiles({ ids, options }: { ids: ComparedIds; options: CompareOptions }): VNode {
  const words = translateCompare().files;
  const query = { ...comparisonQuery(ids, options), language: language.value };
  return (
    <TakeWith
      reports={[
        { href: linkTo('GET /comparison/report.pdf', { query: { ...query, paper: paper.value } }), text: words.pdf },
        { href: linkTo('GET /comparison/report.html', { query }), text: words.html },
      ]}
      data={[]}
    />
  );
}

/** Reports and data of one burn. */
export function BurnFiles({ burnId }: { burnId: string }): VNode {
  const words = translateCompare().files;
  const params = { id: burnId };
  const query = { language: language.value };
  return (
    <TakeWith
      reports={[
        {
          href: linkTo('GET /burns/:id/report.pdf', { params, query: { ...query, paper: paper.value } }),
          text: words.pdf,
        },
        { href: linkTo('GET /burns/:id/report.html', { params, query }), text: words.html },
        { href: linkTo('GET /burns/:id/curves.svg', { params, query }), text: words.svg },
      ]}
      data={[
        { href: linkTo('GET /burns/:id/burn.xlsx', { params }), text: words.xlsx },
        { href: linkTo('GET /burns/:id/readings.csv', { params }), text: words.readingsCsv },
        { href: linkTo('GET /burns/:id/readings.parquet', { params }), text: words.parquet },
        { href: linkTo('GET /burns/:id/results.csv', { params }), text: words.resultsCsv },
        { href: linkTo('GET /burns/:id/record', { params }), text: words.record },
        { href: linkTo('GET /burns/:id/package.zip', { params }), text: words.package },
      ]}
    />
  );
}

function TakeWith({ reports, data }: { reports: readonly File[]; data: readonly File[] }): VNode {
  const words = translateCompare().files;
  return (
    <section class="take-with" aria-labelledby="take-with-title">
      <h2 id="take-with-title">{words.title}</h2>
      <div class="laid-controls">
        <Choice
          label={words.paper}
          value={paper.value}
          options={[
            ['a4', 'A4'],
            ['letter', words.letter],
          ]}
          onChange={(next) => {
            paper.value = next;
          }}
        />
        <FileLinks title={words.reports} files={reports} />
        {data.length > 0 && <FileLinks title={words.data} files={data} />}
      </div>
    </section>
  );
}

function FileLinks({ title, files }: { title: string; files: readonly File[] }): VNode {
  return (
    <div class="file-links">
      <h3>{title}</h3>
      <ul class="row">
        {files.map(({ href, text }) => (
          <li key={text}>
            <a class="button" href={href} download>
              {text}
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}
