/** The only screen of a device before it is paired. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { translate } from '../../language/catalogue.ts';
import { person } from '../../preferences/preferences.ts';
import { call } from '../../requests/service.ts';
import { reconnect } from '../../state/connection.ts';
import { go, route } from '../../state/route.ts';
import { TextField } from '../forms/field.tsx';
import { useDraft } from '../forms/use-draft.ts';
import { MarkedUpText } from '../kit/marked-up-text.tsx';
import { sentenceFor } from '../kit/use-load.ts';

export function EnterCode(): VNode {
  const words = translate().pair;
  // Turning a phone to look at the bench may reload the page.
  const { draft, forget } = useDraft('pairing', { code: '', name: person.peek() });
  // The code came from a scanned address.
  const here = route.value;
  const codeRead = here.at === 'pair' ? here.code : undefined;
  useEffect(() => {
    if (codeRead !== undefined) draft.value = { ...draft.value, code: codeRead };
  }, [codeRead]);
  const { code, name } = draft.value;
  const problem = useSignal<string | undefined>(undefined);
  const submit = async (event: Event) => {
    event.preventDefault();
    if (code.replace(/\D/g, '').length !== 6) {
      problem.value = words.codeMissing;
      return;
    }
    try {
      await call('POST /pairing', { body: { code, ...(name.trim() && { name: name.trim() }) } });
      forget();
      if (here.at === 'pair') go({ at: 'now' });
      reconnect();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  return (
    <div class="page narrow">
      <h1>{words.codeTitle}</h1>
      <p>
        <MarkedUpText text={words.codeHow} />
      </p>
      <form onSubmit={submit}>
        <TextField
          label={words.codeField}
          decimal
          value={code}
          problem={problem.value}
          onInput={(next) => {
            draft.value = { ...draft.value, code: next };
          }}
        />
        <TextField
          label={words.deviceName}
          hint={words.deviceNameHelp}
          value={name}
          onInput={(next) => {
            draft.value = { ...draft.value, name: next };
          }}
        />
        <button type="submit" class="primary">
          {words.submit}
        </button>
      </form>
      {!isSecureContext && <PlainHttp />}
    </div>
  );
}

export function PlainHttp(): VNode {
  const words = translate().pair;
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
