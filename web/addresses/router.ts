/** Addresses of the screens. They are in the hash, so that any static file server can serve the page. */
import { type CompareRoute, compareHash, parseCompare } from './compare-route.ts';

export type Route =
  | { at: 'now' }
  | { at: 'burns' }
  | { at: 'run'; id: string }
  | { at: 'burn'; id: string }
  | { at: 'wrapUp'; id: string }
  | { at: 'describe'; id?: string }
  | { at: 'overlay'; ids: string[] }
  | { at: 'compare'; of: CompareRoute }
  | { at: 'rig' }
  | { at: 'boardCheck'; path?: string; baudRate?: string }
  | { at: 'shelf'; kind?: string; id?: string }
  | { at: 'bringIn' }
  | { at: 'settings' }
  | { at: 'phones' }
  | { at: 'pair'; code?: string }
  | { at: 'cautions' }
  | { at: 'cooling' }
  | { at: 'unknown' };

/** Parse the route from a location hash such as `#/burns/0190…/run`. */
export function parseRoute(hash: string): Route {
  const parts = hash
    .replace(/^#?\/?/, '')
    .split('/')
    .filter((part) => part !== '')
    .map(decodeURIComponent);
  const [head, second, third] = parts;
  switch (head) {
    case undefined:
      return { at: 'now' };
    case 'burns':
      if (second === undefined) return { at: 'burns' };
      if (third === undefined) return { at: 'burn', id: second };
      if (third === 'run') return { at: 'run', id: second };
      if (third === 'wrap-up') return { at: 'wrapUp', id: second };
      if (third === 'describe') return { at: 'describe', id: second };
      return { at: 'unknown' };
    case 'new':
      return { at: 'describe' };
    case 'overlay':
      return { at: 'overlay', ids: parts.slice(1) };
    case 'compare': {
      const of = parseCompare(parts.slice(1));
      return of ? { at: 'compare', of } : { at: 'unknown' };
    }
    case 'shelf':
      return { at: 'shelf', ...(second && { kind: second }), ...(third && { id: third }) };
    case 'bring-in':
      return { at: 'bringIn' };
    case 'pair':
      return { at: 'pair', ...(second && { code: second }) };
    case 'board-check':
      return { at: 'boardCheck', ...(second && { path: second }), ...(third && { baudRate: third }) };
    case 'rig':
    case 'settings':
    case 'phones':
    case 'cautions':
    case 'cooling':
      return { at: head };
    default:
      return { at: 'unknown' };
  }
}

/** The address of a route, for a link. */
export function routeHash(route: Route): string {
  switch (route.at) {
    case 'now':
    case 'unknown':
      return '#/';
    case 'run':
      return `#/burns/${route.id}/run`;
    case 'burn':
      return `#/burns/${route.id}`;
    case 'wrapUp':
      return `#/burns/${route.id}/wrap-up`;
    case 'describe':
      return route.id === undefined ? '#/new' : `#/burns/${route.id}/describe`;
    case 'pair':
      return ['#/pair', route.code].filter((part) => part !== undefined).join('/');
    case 'bringIn':
      return '#/bring-in';
    case 'boardCheck':
      return [
        '#/board-check',
        ...[route.path, route.baudRate].flatMap((part) => (part === undefined ? [] : encodeURIComponent(part))),
      ].join('/');
    case 'overlay':
      return ['#/overlay', ...route.ids].join('/');
    case 'compare':
      return compareHash(route.of);
    case 'shelf':
      return ['#/shelf', route.kind, route.id].filter((part) => part !== undefined).join('/');
    default:
      return `#/${route.at}`;
  }
}
