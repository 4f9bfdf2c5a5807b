/** RFC 6266: a plain name for everybody, the true one for those who read RFC 8187. */
export function attachment(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[^\w .#-]/g, '')
    .trim();
  const exact = encodeURIComponent(name.toWellFormed()).replace(
    /['()*]/g,
    (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `attachment; filename="${plain}"; filename*=UTF-8''${exact}`;
}
