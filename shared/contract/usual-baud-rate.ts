/** Speed of a board that says no other, baud (firmware-protocol/README.md). */
export const USUAL_BAUD_RATE = 115_200;
