/**
 * ITS-90 reference functions of the letter-designated thermocouples and their approximate inverses.
 *
 * Source: NIST Standard Reference Database 60, ITS-90 Thermocouple Database (NIST Monograph 175), the same functions
 * as IEC 60584-1. A work of the United States government, not subject to copyright there.
 *
 * Forward: E/mV = Σ c_i (t/°C)^i, reference junction at 0 °C; type K from 0 °C upwards adds
 * a0·exp(a1·(t − a2)²). Inverse: t/°C = Σ d_i (E/mV)^i, with the error of the approximation, up to 0.06 °C.
 */
export type ThermocoupleType = 'K' | 'J' | 'T' | 'N' | 'E' | 'S' | 'R' | 'B';

export interface ForwardPiece {
  readonly fromC: number;
  readonly toC: number;
  readonly coefficients: readonly number[];
  /** [a0, a1, a2] of the exponential term. */
  readonly exponential?: readonly [number, number, number];
}

export interface InversePiece {
  readonly fromMillivolts: number;
  readonly toMillivolts: number;
  /** The temperatures at the two voltages. */
  readonly fromC: number;
  readonly toC: number;
  readonly coefficients: readonly number[];
}

export interface ThermocoupleFunctions {
  readonly forward: readonly ForwardPiece[];
  readonly inverse: readonly InversePiece[];
}

export const THERMOCOUPLE_FUNCTIONS: Readonly<Record<ThermocoupleType, ThermocoupleFunctions>> = {
  K: {
    forward: [
      {
        fromC: -270,
        toC: 0,
        coefficients: [
          0, 0.039450128025, 0.000023622373598, -3.2858906784e-7, -4.9904828777e-9, -6.7509059173e-11,
          -5.7410327428e-13, -3.1088872894e-15, -1.0451609365e-17, -1.9889266878e-20, -1.6322697486e-23,
        ],
      },
      {
        fromC: 0,
        toC: 1372,
        coefficients: [
          -0.017600413686, 0.038921204975, 0.000018558770032, -9.9457592874e-8, 3.1840945719e-10, -5.6072844889e-13,
          5.6075059059e-16, -3.2020720003e-19, 9.7151147152e-23, -1.2104721275e-26,
        ],
        exponential: [0.1185976, -0.0001183432, 126.9686],
      },
    ],
    inverse: [
      {
        fromMillivolts: -5.891,
        toMillivolts: 0,
        fromC: -200,
        toC: 0,
        coefficients: [
          0, 25.173462, -1.1662878, -1.0833638, -0.8977354, -0.37342377, -0.086632643, -0.010450598, -0.00051920577,
        ],
      },
      {
        fromMillivolts: 0,
        toMillivolts: 20.644,
        fromC: 0,
        toC: 500,
        coefficients: [
          0, 25.08355, 0.07860106, -0.2503131, 0.0831527, -0.01228034, 0.0009804036, -0.0000441303, 0.000001057734,
          -1.052755e-8,
        ],
      },
      {
        fromMillivolts: 20.644,
        toMillivolts: 54.886,
        fromC: 500,
        toC: 1372,
        coefficients: [-131.8058, 48.30222, -1.646031, 0.05464731, -0.0009650715, 0.000008802193, -3.11081e-8],
      },
    ],
  },
  J: {
    forward: [
      {
        fromC: -210,
        toC: 760,
        coefficients: [
          0, 0.050381187815, 0.00003047583693, -8.568106572e-8, 1.3228195295e-10, -1.7052958337e-13, 2.0948090697e-16,
          -1.2538395336e-19, 1.5631725697e-23,
        ],
      },
      {
        fromC: 760,
        toC: 1200,
        coefficients: [
          296.45625681, -1.4976127786, 0.0031787103924, -0.0000031847686701, 1.5720819004e-9, -3.0691369056e-13,
        ],
      },
    ],
    inverse: [
      {
        fromMillivolts: -8.095,
        toMillivolts: 0,
        fromC: -210,
        toC: 0,
        coefficients: [
          0, 19.528268, -1.2286185, -1.0752178, -0.59086933, -0.17256713, -0.028131513, -0.002396337, -0.000083823321,
        ],
      },
      {
        fromMillivolts: 0,
        toMillivolts: 42.919,
        fromC: 0,
        toC: 760,
        coefficients: [0, 19.78425, -0.2001204, 0.01036969, -0.0002549687, 0.000003585153, -5.344285e-8, 5.09989e-10],
      },
      {
        fromMillivolts: 42.919,
        toMillivolts: 69.553,
        fromC: 760,
        toC: 1200,
        coefficients: [-3113.58187, 300.543684, -9.9477323, 0.17027663, -0.00143033468, 0.00000473886084],
      },
    ],
  },
  T: {
    forward: [
      {
        fromC: -270,
        toC: 0,
        coefficients: [
          0, 0.038748106364, 0.000044194434347, 1.1844323105e-7, 2.0032973554e-8, 9.0138019559e-10, 2.2651156593e-11,
          3.6071154205e-13, 3.8493939883e-15, 2.8213521925e-17, 1.4251594779e-19, 4.8768662286e-22, 1.079553927e-24,
          1.3945027062e-27, 7.9795153927e-31,
        ],
      },
      {
        fromC: 0,
        toC: 400,
        coefficients: [
          0, 0.038748106364, 0.00003329222788, 2.0618243404e-7, -2.1882256846e-9, 1.0996880928e-11, -3.0815758772e-14,
          4.547913529e-17, -2.7512901673e-20,
        ],
      },
    ],
    inverse: [
      {
        fromMillivolts: -5.603,
        toMillivolts: 0,
        fromC: -200,
        toC: 0,
        coefficients: [0, 25.949192, -0.21316967, 0.79018692, 0.42527777, 0.13304473, 0.020241446, 0.0012668171],
      },
      {
        fromMillivolts: 0,
        toMillivolts: 20.872,
        fromC: 0,
        toC: 400,
        coefficients: [0, 25.928, -0.7602961, 0.04637791, -0.002165394, 0.00006048144, -7.293422e-7],
      },
    ],
  },
  N: {
    forward: [
      {
        fromC: -270,
        toC: 0,
        coefficients: [
          0, 0.026159105962, 0.000010957484228, -9.3841111554e-8, -4.6412039759e-11, -2.6303357716e-12,
          -2.2653438003e-14, -7.6089300791e-17, -9.3419667835e-20,
        ],
      },
      {
        fromC: 0,
        toC: 1300,
        coefficients: [
          0, 0.025929394601, 0.00001571014188, 4.3825627237e-8, -2.5261169794e-10, 6.4311819339e-13, -1.0063471519e-15,
          9.9745338992e-19, -6.0863245607e-22, 2.0849229339e-25, -3.0682196151e-29,
        ],
      },
    ],
    inverse: [
      {
        fromMillivolts: -3.99,
        toMillivolts: 0,
        fromC: -200,
        toC: 0,
        coefficients: [
          0, 38.436847, 1.1010485, 5.2229312, 7.2060525, 5.8488586, 2.7754916, 0.77075166, 0.11582665, 0.0073138868,
        ],
      },
      {
        fromMillivolts: 0,
        toMillivolts: 20.613,
        fromC: 0,
        toC: 600,
        coefficients: [0, 38.6896, -1.08267, 0.0470205, -0.00000212169, -0.000117272, 0.0000053928, -7.98156e-8],
      },
      {
        fromMillivolts: 20.613,
        toMillivolts: 47.513,
        fromC: 600,
        toC: 1300,
        coefficients: [19.72485, 33.00943, -0.3915159, 0.009855391, -0.0001274371, 7.767022e-7],
      },
    ],
  },
  E: {
    forward: [
      {
        fromC: -270,
        toC: 0,
        coefficients: [
          0, 0.058665508708, 0.000045410977124, -7.7998048686e-7, -2.5800160843e-8, -5.9452583057e-10,
          -9.3214058667e-12, -1.0287605534e-13, -8.0370123621e-16, -4.3979497391e-18, -1.6414776355e-20,
          -3.9673619516e-23, -5.5827328721e-26, -3.4657842013e-29,
        ],
      },
      {
        fromC: 0,
        toC: 1000,
        coefficients: [
          0, 0.05866550871, 0.000045032275582, 2.8908407212e-8, -3.3056896652e-10, 6.502440327e-13, -1.9197495504e-16,
          -1.2536600497e-18, 2.1489217569e-21, -1.4388041782e-24, 3.5960899481e-28,
        ],
      },
    ],
    inverse: [
      {
        fromMillivolts: -8.825,
        toMillivolts: 0,
        fromC: -200,
        toC: 0,
        coefficients: [
          0, 16.977288, -0.4351497, -0.15859697, -0.092502871, -0.026084314, -0.0041360199, -0.0003403403,
          -0.00001156489,
        ],
      },
      {
        fromMillivolts: 0,
        toMillivolts: 76.373,
        fromC: 0,
        toC: 1000,
        coefficients: [
          0, 17.057035, -0.23301759, 0.0065435585, -0.000073562749, -0.0000017896001, 8.4036165e-8, -1.3735879e-9,
          1.0629823e-11, -3.2447087e-14,
        ],
      },
    ],
  },
  S: {
    forward: [
      {
        fromC: -50,
        toC: 1064.18,
        coefficients: [
          0, 0.00540313308631, 0.000012593428974, -2.32477968689e-8, 3.22028823036e-11, -3.31465196389e-14,
          2.55744251786e-17, -1.25068871393e-20, 2.71443176145e-24,
        ],
      },
      {
        fromC: 1064.18,
        toC: 1664.5,
        coefficients: [1.32900444085, 0.00334509311344, 0.00000654805192818, -1.64856259209e-9, 1.29989605174e-14],
      },
      {
        fromC: 1664.5,
        toC: 1768.1,
        coefficients: [146.628232636, -0.258430516752, 0.000163693574641, -3.30439046987e-8, -9.43223690612e-15],
      },
    ],
    inverse: [
      {
        fromMillivolts: -0.235,
        toMillivolts: 1.874,
        fromC: -50,
        toC: 250,
        coefficients: [
          0, 184.94946, -80.0504062, 102.23743, -152.248592, 188.821343, -159.085941, 82.302788, -23.4181944, 2.7978626,
        ],
      },
      {
        fromMillivolts: 1.874,
        toMillivolts: 11.95,
        fromC: 250,
        toC: 1200,
        coefficients: [
          12.91507177, 146.6298863, -15.34713402, 3.145945973, -0.4163257839, 0.03187963771, -0.0012916375,
          0.00002183475087, -1.447379511e-7, 8.211272125e-9,
        ],
      },
      {
        fromMillivolts: 10.332,
        toMillivolts: 17.536,
        fromC: 1064,
        toC: 1664.5,
        coefficients: [-80.87801117, 162.1573104, -8.536869453, 0.4719686976, -0.01441693666, 0.000208161889],
      },
      {
        fromMillivolts: 17.536,
        toMillivolts: 18.693,
        fromC: 1664.5,
        toC: 1768.1,
        coefficients: [53338.75126, -12358.92298, 1092.657613, -42.65693686, 0.624720542],
      },
    ],
  },
  R: {
    forward: [
      {
        fromC: -50,
        toC: 1064.18,
        coefficients: [
          0, 0.00528961729765, 0.0000139166589782, -2.38855693017e-8, 3.56916001063e-11, -4.62347666298e-14,
          5.00777441034e-17, -3.73105886191e-20, 1.57716482367e-23, -2.81038625251e-27,
        ],
      },
      {
        fromC: 1064.18,
        toC: 1664.5,
        coefficients: [
          2.95157925316, -0.00252061251332, 0.0000159564501865, -7.64085947576e-9, 2.05305291024e-12,
          -2.93359668173e-16,
        ],
      },
      {
        fromC: 1664.5,
        toC: 1768.1,
        coefficients: [152.232118209, -0.268819888545, 0.000171280280471, -3.45895706453e-8, -9.34633971046e-15],
      },
    ],
    inverse: [
      {
        fromMillivolts: -0.226,
        toMillivolts: 1.923,
        fromC: -50,
        toC: 250,
        coefficients: [
          0, 188.9138, -93.83529, 130.68619, -227.0358, 351.45659, -389.539, 282.39471, -126.07281, 31.353611,
          -3.3187769,
        ],
      },
      {
        fromMillivolts: 1.923,
        toMillivolts: 13.228,
        fromC: 250,
        toC: 1200,
        coefficients: [
          13.34584505, 147.2644573, -18.44024844, 4.031129726, -0.624942836, 0.06468412046, -0.004458750426,
          0.0001994710149, -0.00000531340179, 6.481976217e-8,
        ],
      },
      {
        fromMillivolts: 11.361,
        toMillivolts: 19.739,
        fromC: 1064,
        toC: 1664.5,
        coefficients: [-81.99599416, 155.3962042, -8.342197663, 0.4279433549, -0.0119157791, 0.0001492290091],
      },
      {
        fromMillivolts: 19.739,
        toMillivolts: 21.103,
        fromC: 1664.5,
        toC: 1768.1,
        coefficients: [34061.77836, -7023.729171, 558.2903813, -19.52394635, 0.2560740231],
      },
    ],
  },
  B: {
    forward: [
      {
        fromC: 0,
        toC: 630.615,
        coefficients: [
          0, -0.00024650818346, 0.0000059040421171, -1.3257931636e-9, 1.5668291901e-12, -1.694452924e-15,
          6.2990347094e-19,
        ],
      },
      {
        fromC: 630.615,
        toC: 1820,
        coefficients: [
          -3.8938168621, 0.02857174747, -0.000084885104785, 1.5785280164e-7, -1.6835344864e-10, 1.1109794013e-13,
          -4.4515431033e-17, 9.8975640821e-21, -9.3791330289e-25,
        ],
      },
    ],
    inverse: [
      {
        fromMillivolts: 0.291,
        toMillivolts: 2.431,
        fromC: 250,
        toC: 700,
        coefficients: [
          98.423321, 699.715, -847.65304, 1005.2644, -833.45952, 455.08542, -155.23037, 29.88675, -2.474286,
        ],
      },
      {
        fromMillivolts: 2.431,
        toMillivolts: 13.82,
        fromC: 700,
        toC: 1820,
        coefficients: [
          213.15071, 285.10504, -52.742887, 9.9160804, -1.2965303, 0.1119587, -0.0060625199, 0.00018661696,
          -0.0000024878585,
        ],
      },
    ],
  },
};
