/** Default speed of a board, baud (firmware-protocol/README.md). */
export const USUAL_BAUD_RATE = 115_200;
