/**
 * Caches the page itself on this device, where the browser allows it: over https with a certificate that it trusts, and
 * on the bench machine. Then the page opens while the service is away, and can be added to a home screen.
 */
import { signal } from '@preact/signals';

/** Whether this page would open without the service. */
export const isInstalled = signal(false);
/** The browser supports it but refused, for lack of a certificate that it trusts. */
export const shellWasRefused = signal(false);

/** Call once, when the page is idle: all files are fetched. */
export async function saveShell(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  try {
    await navigator.serviceWorker.register('/shell-worker.js');
    await navigator.serviceWorker.ready;
    isInstalled.value = true;
  } catch {
    isInstalled.value = navigator.serviceWorker.controller !== null;
    shellWasRefused.value = !isInstalled.value;
  }
}

/** Let the browser check whether there is a newer page to cache. */
export async function renewShell(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const stored = await navigator.serviceWorker.getRegistration();
  await stored?.update();
}
