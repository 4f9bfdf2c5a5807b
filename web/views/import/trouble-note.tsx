import type { VNode } from 'preact';
import { translateImport } from '../../language/catalogue.ts';
import { chosenFile } from '../../requests/imports.ts';
import type { Staged } from './use-staged.ts';

/** The problems that the service found in a file, each on a line of its own, and the other ways to read it. */
export function TroubleNote({ staged }: { staged: Staged }): VNode {
  const { trouble, preview } = staged;
  const words = translateImport().choose;
  const file = chosenFile.value;
  const mayBeNotes = trouble.value?.code === 'import/no-columns' && !preview.value;
  return (
    <div role="alert" class="trouble">
      {trouble.value && (
        <>
          <p class="problem">{trouble.value.message}</p>
          {trouble.value.issues.length > 0 && (
            <ul class="remarks">
              {trouble.value.issues.map(({ path, message }) => (
                <li key={`${path} ${message}`}>
                  {path && <b>{path}</b>} {message}
                </li>
              ))}
            </ul>
          )}
          {mayBeNotes && file && (
            <p>
              <button type="button" onClick={() => void staged.send({ ...file, as: 'notes' })}>
                {words.asNotes}
              </button>
            </p>
          )}
        </>
      )}
    </div>
  );
}
