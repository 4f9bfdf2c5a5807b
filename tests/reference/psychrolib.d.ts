/** Types of the functions of the psychrometric library that tests compare with; the package has none. */
declare module 'psychrolib' {
  const psychrolib: {
    SetUnitSystem(system: number): void;
    readonly SI: number;
    /** °C → Pa */
    GetSatVapPres(dryBulbC: number): number;
    /** m → Pa */
    GetStandardAtmPressure(altitudeM: number): number;
    /** Pa, m, °C → Pa */
    GetStationPressure(seaLevelPa: number, altitudeM: number, dryBulbC: number): number;
  };
  export default psychrolib;
}
