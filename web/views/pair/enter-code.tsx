/** All that a device sees before it is paired. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { say } from '../../state/catalogue.ts';
import { reconnect } from '../../state/connection.ts';
import { person } from '../../state/preferences.ts';
import { call } from '../../state/service.ts';
import { TextField } from '../kit/field.tsx';
import { Rich } from '../kit/rich.tsx';
import { sentenceFor } from '../kit/use-load.ts';

export function EnterCode(): VNode {
  const words = say().pair;
  const code = useSignal('');
  const name = useSignal(person.peek());
  const problem = useSignal<string | undefined>(undefined);
  const enter = async (event: Event) => {
    event.preventDefault();
    if (code.value.replace(/\D/g, '').length !== 6) {
      problem.value = words.codeMissing;
      return;
    }
    try {
      await call('POST', '/pairing', { code: code.value, ...(name.value.trim() && { name: name.value.trim() }) });
      reconnect();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  return (
    <div class="page narrow">
      <h1>{words.enterTitle}</h1>
      <p>
        <Rich text={words.enterHow} />
      </p>
      <form onSubmit={enter}>
        <TextField
          label={words.enterCode}
          decimal
          value={code.value}
          problem={problem.value}
          onInput={(next) => {
            code.value = next;
          }}
        />
        <TextField
          label={words.enterName}
          hint={words.enterNameHelp}
          value={name.value}
          onInput={(next) => {
            name.value = next;
          }}
        />
        <button type="submit" class="primary">
          {words.enter}
        </button>
      </form>
      {!isSecureContext && <PlainHttp />}
    </div>
  );
}

export function PlainHttp(): VNode {
  const words = say().pair;
  return (
    <section class="plain-http">
      <h2>{words.without}</h2>
      <ul>
        {words.withoutList.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
