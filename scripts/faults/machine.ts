/**
 * Loaded into the service before its own code (`node --import`): a wall clock that a history can set, and the ports of
 * the history added to those that the system lists. The service has no code for it.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SerialPort } from 'serialport';

const { clockFile, portsFolder } = JSON.parse(process.env.FAULTS_MACHINE!) as {
  clockFile: string;
  portsFolder: string;
};
const trueNow = Date.now;
let aheadMs = 0;

function setClock(): void {
  aheadMs = Number(readFileSync(clockFile, 'latin1'));
}

setClock();
process.on('SIGUSR2', setClock);
Date.now = () => trueNow() + aheadMs;
globalThis.Date = new Proxy(Date, {
  construct: (target, args, self) => Reflect.construct(target, args.length === 0 ? [Date.now()] : args, self),
});

SerialPort.list = async () =>
  readdirSync(portsFolder).map((name) => ({
    path: join(portsFolder, name),
    manufacturer: undefined,
    serialNumber: undefined,
    pnpId: undefined,
    locationId: undefined,
    productId: undefined,
    vendorId: undefined,
  }));
