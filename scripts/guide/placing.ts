/**
 * The places of the probes as an SVG picture; the numbers are explained in the guide, so the picture has no language.
 */
export function drawPlacing(): string {
  const line = (d: string, width = 3) => `<path d="${d}" fill="none" stroke="#1b1b1b" stroke-width="${width}"/>`;
  const probe = (number: number, d: string, x: number, y: number, labelX: number, labelY: number) =>
    `<path d="${d}" fill="none" stroke="#8a4b00" stroke-width="3"/><circle cx="${x}" cy="${y}" r="6" fill="#b3261e"/>` +
    `<circle cx="${labelX}" cy="${labelY}" r="15" fill="#fff" stroke="#1b1b1b"/>` +
    `<text x="${labelX}" y="${labelY + 6}" text-anchor="middle" font-weight="700" fill="#1b1b1b">${number}</text>`;
  return [
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 520" font-family="sans-serif" font-size="17">',
    '<title>1, 2, 3, 4, 5</title>',
    '<rect width="640" height="520" fill="#fff"/>',
    // Water, then the pot around it.
    '<rect x="173" y="110" width="214" height="147" fill="#cfe3f2"/>',
    line('M170 60V260H390V60', 5),
    // Skirt around the pot, closed at its rim, with the gap between them and the passage to the flue.
    line('M172 90H142V290H240', 3),
    line('M388 90H418V200M418 250V290H320', 3),
    // Riser under the pot, and the fire below.
    line('M240 288V440H170M170 490H320V288', 4),
    '<path d="M196 486q10-34 22-14q4-26 16-4q8-20 18 18z" fill="#d9822b"/>',
    '<path d="M272 430C264 380 288 340 280 300" fill="none" stroke="#d9822b" stroke-width="3" stroke-dasharray="7 6"/>',
    // Flue from the skirt, up.
    line('M418 200H500V30', 4),
    line('M418 250H550V30', 4),
    probe(1, 'M225 20V222', 225, 222, 225, 22),
    probe(2, 'M320 20V146', 320, 146, 320, 22),
    probe(3, 'M60 350H280', 280, 350, 46, 350),
    probe(4, 'M60 180H156', 156, 180, 46, 180),
    probe(5, 'M606 120H525', 525, 120, 606, 120),
    '</svg>\n',
  ].join('\n');
}
