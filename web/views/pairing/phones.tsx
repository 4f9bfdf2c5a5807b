/** Phones on the network, as seen on the bench machine: the address, the code, the paired devices. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { PairedDevice, Pairing } from '../../../shared/contract/pairing.ts';
import { writing } from '../../../shared/language/language.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate } from '../../language/catalogue.ts';
import { language } from '../../preferences/preferences.ts';
import { call } from '../../requests/service.ts';
import { Fetching } from '../kit/fetching.tsx';
import { MarkedUpText } from '../kit/marked-up-text.tsx';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { PlainHttp } from './enter-code.tsx';
import { QrCode } from './qr-code.tsx';

/** Soon enough for a person who looks from the phone to the laptop. */
const LOOK_AGAIN_MS = 2000;

export function Phones(): VNode {
  const words = translate().pair;
  const loading = useLoad('pairing', () => call('GET /pairing'));
  const problem = useSignal<string | undefined>(undefined);
  const pairing = loading.value.value;
  const waits = pairing?.code !== undefined;
  // while a code is shown a phone may be paired at any moment
  useEffect(() => {
    if (!waits) return;
    const timer = setInterval(loading.reload, LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, [waits]);
  if (!pairing) return <Fetching of={loading} />;
  const ask = async (change: () => Promise<unknown>) => {
    try {
      await change();
      problem.value = undefined;
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
    loading.reload();
  };
  return (
    <div class="page narrow">
      <h1>{words.title}</h1>
      <Addresses network={pairing.network} />
      {pairing.you === 'bench' ? (
        <>
          {pairing.network && (
            <section class="pairing" aria-live="polite">
              {pairing.code && (
                <>
                  <p>{words.code}</p>
                  <p class="pairing-code">{pairing.code.code.replace(/^(...)/, '$1 ')}</p>
                  {pairing.network.addresses[0] !== undefined && (
                    <>
                      <p>{words.orCamera}</p>
                      <QrCode
                        text={pairingAddress(pairing.network.addresses[0], pairing.code.code)}
                        label={words.qrCode({ address: pairing.network.addresses[0] })}
                      />
                    </>
                  )}
                  <p class="quiet">{words.codeLeft({ minutes: Math.max(1, Math.round(pairing.code.leftS / 60)) })}</p>
                </>
              )}
              <p class="row">
                <button type="button" class="primary" onClick={() => void ask(() => call('POST /pairing/code'))}>
                  {pairing.code ? words.newCode : words.showCode}
                </button>
                {pairing.code && (
                  <button type="button" onClick={() => void ask(() => call('DELETE /pairing/code'))}>
                    {words.hideCode}
                  </button>
                )}
              </p>
            </section>
          )}
          <p class="problem" role="alert">
            {problem.value}
          </p>
          <Devices
            devices={pairing.devices ?? []}
            onSendAway={(id) => void ask(() => call('DELETE /pairing/devices/:id', { params: { id } }))}
          />
        </>
      ) : (
        <p>{words.benchOnly}</p>
      )}
      {!isSecureContext && <PlainHttp />}
    </div>
  );
}

/** The address for the camera: the page, with the code in the fragment, which is never sent. */
function pairingAddress(address: string, code: string): string {
  return `${address.replace(/\/$/, '')}/${routeHash({ at: 'pair', code })}`;
}

function Addresses({ network }: { network: Pairing['network'] }): VNode {
  const words = translate().pair;
  if (!network) {
    return (
      <p>
        <MarkedUpText text={words.closed} />
      </p>
    );
  }
  if (network.addresses.length === 0) return <p>{words.noAddress}</p>;
  return (
    <>
      <p>{words.open}</p>
      <ul class="addresses">
        {network.addresses.map((address) => (
          <li key={address}>
            <b>{address}</b>
          </li>
        ))}
      </ul>
      {!network.secure && <p class="quiet">{words.plainHttp}</p>}
    </>
  );
}

function Devices({
  devices,
  onSendAway,
}: {
  devices: readonly PairedDevice[];
  onSendAway: (id: string) => void;
}): VNode {
  const words = translate().pair;
  const date = (utcMs: number) =>
    new Intl.DateTimeFormat(writing[language.value].locale, { dateStyle: 'medium', timeStyle: 'short' }).format(utcMs);
  return (
    <section>
      <h2>{words.devices}</h2>
      {devices.length === 0 && <p class="quiet">{words.noDevices}</p>}
      <ul class="big-links">
        {devices.map(({ id, name = words.unnamed, pairedUtcMs, lastSeenUtcMs }) => (
          <li key={id}>
            <b>{name}</b>{' '}
            <span class="quiet">
              {words.pairedOn({ date: date(pairedUtcMs) })}, {words.lastSeen({ date: date(lastSeenUtcMs) })}
            </span>{' '}
            <button
              type="button"
              aria-label={words.sendAwayNamed({ name })}
              onClick={() => {
                if (confirm(words.sendAwaySure({ name }))) onSendAway(id);
              }}
            >
              {words.sendAway}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
