/*
 * Reference solution of the contamination balance by a general-purpose stiff integrator (SUNDIALS
 * CVODE).
 *
 * Reads cases (see cases.py) from standard input; README.md says how to build it and what it
 * writes. Time in h, volume in mL, flow in mL/h, concentration n in 1/mL, dirt in particles, mass
 * in g, pressure in kPa.
 *
 * CVODE integrates smooth pieces only. Where the right-hand side has a kink (a bypass opens, the
 * wear clamp starts or stops to bind, the loading curve reaches its wall) a root stops it and it
 * starts afresh. Within a piece the branch is held by a flag, not by the value, so that steps that
 * look past the root stay smooth.
 */
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <time.h>

enum { BANDS = 6, STATES = 4, CYCLES = 4, MAX_CASES = 1000, LINE = 65536 };

/* state vector: concentrations, retained particles, integrals of n, loading, exposure */
enum { N = 0, KEPT = 6, INTEGRAL = 12, LOAD = 18, WEAR = 19, SIZE = 20 };

/* root functions: bypass of each state, wear clamp, wall */
enum { CLAMP = STATES, WALL = STATES + 1, ROOTS = STATES + 2 };

/* distance from the wall, as a share of the way to it, at which the element counts as blocked */
static const double AT_WALL = 1e-15;

typedef struct {
  char* text; /* the input row as read */
  char tag[64];
  double volume; /* mL */
  int states;
  double share[STATES], flow[STATES] /* mL/h */, viscosity[STATES];
  double filtered, field, e[BANDS], ep[BANDS], offFlow /* mL/h */, eOff[BANDS], settling[BANDS];
  double toTank[BANDS], toReturn[BANDS];
  double capacity, clean, terminal, exponent, ratedFlow /* mL/h */, ratedViscosity, crack, full;
  double fines, backFlush, handling[BANDS], start[BANDS];
  double interval;
  int cycles;
  double weight[BANDS], reference, power, floor;
  /* derived */
  double meanFlow, conductance /* G, mL/h/kPa */, base[STATES] /* kPa at h = 1 */;
  double mu[BANDS], rate /* k of the blocking law */, wall /* loading at the wall, or 0 */,
      opens[STATES];
} Case;

typedef struct {
  double start[BANDS], end[BANDS], kept[BANDS], integral[BANDS];
  double exposure, retained, p[STATES], b[STATES];
  int opened; /* some bypass was open within the cycle */
} Cycle;

/* which branch each kink is on */
typedef struct {
  const Case* c;
  int open[STATES], above, blocked;
} Piece;

static void fail(const char* what, const char* where) {
  fprintf(stderr, "reference: %s (%s)\n", what, where);
  exit(1);
}

/* ---------- input ---------- */

static char* cursor;

static double next(void) {
  char* cell = strsep(&cursor, ",");
  if (!cell) fail("too few columns", "cases");
  return *cell ? strtod(cell, NULL) : 0.0;
}

static void nextBands(double* a) {
  for (int j = 0; j < BANDS; j++) a[j] = next();
}

static void nextStates(double* a) {
  for (int k = 0; k < STATES; k++) a[k] = next();
}

static double loadingAt(const Case* c, double h) {
  double n = c->exponent;
  return n == 1.0 ? log(h) / c->rate : (pow(h, 1.0 - n) - 1.0) / ((1.0 - n) * c->rate);
}

static void readCase(Case* c, const char* line) {
  static const double edges[] = {4, 6, 14, 21, 38, 70, 100};
  char copy[LINE];
  c->text = strdup(line);
  strcpy(copy, line);
  cursor = copy;
  next();
  snprintf(c->tag, sizeof c->tag, "%s", strsep(&cursor, ","));
  c->volume = next() * 1e3;
  c->states = (int)next();
  nextStates(c->share), nextStates(c->flow), nextStates(c->viscosity);
  c->filtered = next(), c->field = next();
  nextBands(c->e), nextBands(c->ep);
  c->offFlow = next() * 6e4;
  nextBands(c->eOff), nextBands(c->settling), nextBands(c->toTank), nextBands(c->toReturn);
  c->capacity = next(), c->clean = next(), c->terminal = next(), c->exponent = next();
  c->ratedFlow = next() * 6e4, c->ratedViscosity = next(), c->crack = next(), c->full = next();
  c->fines = next(), c->backFlush = next();
  nextBands(c->handling), nextBands(c->start);
  c->interval = next();
  c->cycles = (int)next();
  nextBands(c->weight);
  c->reference = next(), c->power = next(), c->floor = next();
  if (cursor) fail("too many columns", line);

  for (int k = 0; k < c->states; k++) c->flow[k] *= 6e4;
  c->meanFlow = 0.0;
  for (int k = 0; k < c->states; k++) c->meanFlow += c->share[k] * c->flow[k];
  c->conductance = c->ratedFlow / (c->full - c->crack);
  for (int j = 0; j < BANDS; j++) {
    /* the cube of the geometric mean, um^3; 2650 kg/m3 = 2650e-15 g/um^3 */
    c->mu[j] = 2650e-15 * M_PI / 6.0 * pow(edges[j] * edges[j + 1], 1.5);
  }
  double r = c->terminal / c->clean, n = c->exponent;
  c->rate = n == 1.0 ? log(r) : (pow(r, 1.0 - n) - 1.0) / (1.0 - n);
  c->wall = n > 1.0 ? 1.0 / ((n - 1.0) * c->rate) : 0.0;
  for (int k = 0; k < c->states; k++) {
    c->base[k] = c->clean * (c->flow[k] / c->ratedFlow) * (c->viscosity[k] / c->ratedViscosity);
    c->opens[k] = loadingAt(c, c->crack / c->base[k]);
  }
}

static int readCases(Case* cases, char* header) {
  static char line[LINE];
  int count = 0;
  if (!fgets(header, LINE, stdin)) fail("no input", "standard input");
  header[strcspn(header, "\n")] = 0;
  while (fgets(line, LINE, stdin)) {
    line[strcspn(line, "\n")] = 0;
    if (count == MAX_CASES) fail("too many cases", "standard input");
    readCase(&cases[count++], line);
  }
  return count;
}

/* ---------- equations ---------- */

/*
 * The LOAD entry of the state is m = M/C or, where the curve has a wall, the distance wall - m: the
 * distance keeps its relative precision close to the wall.
 */
static double loadScale(const Case* c) { return (c->wall > 0.0 ? -1.0 : 1.0) / c->capacity; }

/* h at a LOAD entry, and its derivative with respect to that entry; infinity from the wall on */
static double blocking(const Case* c, double load, double* slope) {
  double n = c->exponent, h;
  if (c->wall > 0.0) {
    if (load <= 0.0) return *slope = INFINITY;
    h = pow(load / c->wall, -1.0 / (n - 1.0));
    *slope = -c->rate * pow(h, n);
  } else {
    h = n == 1.0 ? exp(c->rate * load) : pow(1.0 + (1.0 - n) * c->rate * load, 1.0 / (1.0 - n));
    *slope = c->rate * pow(h, n);
  }
  return h;
}

/* <1 - b> and <Q (1 - b)>, and their derivatives with respect to the LOAD entry */
static void throughElement(const Piece* s, double load, double* a, double* q, double* da,
                           double* dq) {
  const Case* c = s->c;
  double slope, h = blocking(c, load, &slope), g = c->conductance;
  *a = *q = *da = *dq = 0.0;
  for (int k = 0; k < c->states; k++) {
    double through = 1.0, dThrough = 0.0, w = c->share[k];
    if (s->blocked || (s->open[k] && h > 1e60)) {
      through = 0.0;
    } else if (s->open[k]) {
      double below = c->flow[k] + g * c->base[k] * h;
      through = (c->flow[k] + g * c->crack) / below;
      dThrough = -through * g * c->base[k] * slope / below;
    }
    *a += w * through, *da += w * dThrough;
    *q += w * through * c->flow[k], *dq += w * dThrough * c->flow[k];
  }
}

static double wearSum(const Case* c, const double* y) {
  double sum = 0.0;
  for (int j = 0; j < BANDS; j++) sum += c->weight[j] * y[N + j];
  return sum / c->reference;
}

static int derivatives(double t, N_Vector state, N_Vector rates, void* data) {
  const Piece* s = data;
  const Case* c = s->c;
  const double* y = NV_DATA_S(state);
  double *dy = NV_DATA_S(rates), a, q, da, dq, mass = 0.0;
  throughElement(s, y[LOAD], &a, &q, &da, &dq);
  for (int j = 0; j < BANDS; j++) {
    double e = c->filtered * c->field * c->e[j], n = y[N + j];
    double caught = (1.0 - c->ep[j]) * e * q;
    double sink =
        c->meanFlow * c->ep[j] + caught + c->offFlow * c->eOff[j] + c->settling[j] * c->volume;
    dy[N + j] = (c->toTank[j] + c->toReturn[j] * (1.0 - e * a) - sink * n) / c->volume;
    dy[KEPT + j] = c->toReturn[j] * e * a + caught * n;
    dy[INTEGRAL + j] = n;
    mass += c->mu[j] * dy[KEPT + j];
  }
  dy[LOAD] = loadScale(c) * mass / (1.0 - c->fines);
  dy[WEAR] = s->above ? pow(fmax(wearSum(c, y), 0.0), c->power) : c->floor;
  return 0;
}

static int jacobian(double t, N_Vector state, N_Vector rates, SUNMatrix matrix, void* data,
                    N_Vector x1, N_Vector x2, N_Vector x3) {
  const Piece* s = data;
  const Case* c = s->c;
  const double* y = NV_DATA_S(state);
  double a, q, da, dq;
  throughElement(s, y[LOAD], &a, &q, &da, &dq);
  SUNMatZero(matrix);
  double x = wearSum(c, y);
  for (int j = 0; j < BANDS; j++) {
    double e = c->filtered * c->field * c->e[j], n = y[N + j], clear = 1.0 - c->ep[j];
    double sink = c->meanFlow * c->ep[j] + clear * e * q + c->offFlow * c->eOff[j] +
                  c->settling[j] * c->volume;
    double keptByLoad = c->toReturn[j] * e * da + clear * e * dq * n;
    double massScale = loadScale(c) * c->mu[j] / (1.0 - c->fines);
    SM_ELEMENT_D(matrix, N + j, N + j) = -sink / c->volume;
    SM_ELEMENT_D(matrix, N + j, LOAD) = -keptByLoad / c->volume;
    SM_ELEMENT_D(matrix, KEPT + j, N + j) = clear * e * q;
    SM_ELEMENT_D(matrix, KEPT + j, LOAD) = keptByLoad;
    SM_ELEMENT_D(matrix, INTEGRAL + j, N + j) = 1.0;
    SM_ELEMENT_D(matrix, LOAD, N + j) = massScale * clear * e * q;
    SM_ELEMENT_D(matrix, LOAD, LOAD) += massScale * keptByLoad;
    if (s->above && x > 0.0) {
      SM_ELEMENT_D(matrix, WEAR, N + j) =
          c->power * pow(x, c->power - 1.0) * c->weight[j] / c->reference;
    }
  }
  return 0;
}

static double clampAt(const Case* c) { return pow(c->floor, 1.0 / c->power); }

static int kinks(double t, N_Vector state, double* g, void* data) {
  const Piece* s = data;
  const Case* c = s->c;
  const double* y = NV_DATA_S(state);
  for (int i = 0; i < ROOTS; i++) g[i] = 1.0;
  for (int k = 0; k < c->states; k++) {
    if (s->open[k]) continue;
    if (c->wall > 0.0) {
      double at = c->wall - c->opens[k];
      g[k] = (y[LOAD] - at) / at;
    } else {
      g[k] = 1.0 - y[LOAD] / c->opens[k];
    }
  }
  g[CLAMP] = wearSum(c, y) / clampAt(c) - 1.0;
  if (c->wall > 0.0 && !s->blocked) g[WALL] = y[LOAD] / c->wall - AT_WALL;
  return 0;
}

/* ---------- one cycle ---------- */

static void check(int flag, const char* what) {
  if (flag < 0) fail("CVODE failed", what);
}

static void integrate(const Case* c, double rtol, N_Vector y, N_Vector atol, void* solver,
                      Piece* s) {
  double t = 0.0, *v = NV_DATA_S(y), *tol = NV_DATA_S(atol);
  for (int j = 0; j < BANDS; j++) {
    double total = (c->toTank[j] + c->toReturn[j]) * c->interval + c->volume * v[N + j];
    tol[N + j] = 1e-12 * rtol * (total / c->volume) + 1e-40;
    tol[KEPT + j] = 1e-12 * rtol * total + 1e-40;
    tol[INTEGRAL + j] = 1e-12 * rtol * (total / c->volume) * c->interval + 1e-40;
  }
  tol[LOAD] = 1e-12 * rtol;
  tol[WEAR] = 1e-12 * rtol * c->floor * c->interval + 1e-40;
  /* CVODE copies the vector, so it is handed over once filled */
  check(CVodeSVtolerances(solver, rtol, atol), "tolerances");
  for (int k = 0; k < c->states; k++) s->open[k] = c->opens[k] <= 0.0;
  s->blocked = 0;
  s->above = wearSum(c, v) > clampAt(c);
  /* a clean tank rises from below the clamp; a clamp of zero never binds */
  if (c->floor <= 0.0) s->above = 1;
  for (int pieces = 0; t < c->interval; pieces++) {
    int found[ROOTS];
    if (pieces > 100) fail("too many kinks", c->text);
    check(CVodeReInit(solver, t, y), "restart");
    check(CVodeSetStopTime(solver, c->interval), "stop time");
    int flag = CVode(solver, c->interval, y, &t, CV_NORMAL);
    check(flag, c->text);
    if (flag != CV_ROOT_RETURN) break;
    check(CVodeGetRootInfo(solver, found), "roots");
    for (int k = 0; k < c->states; k++) s->open[k] |= found[k] != 0;
    if (found[CLAMP]) s->above = found[CLAMP] > 0;
    if (found[WALL]) s->blocked = 1;
  }
}

static void pressures(const Piece* s, double load, Cycle* out) {
  const Case* c = s->c;
  double slope, h = blocking(c, load, &slope), g = c->conductance;
  for (int k = 0; k < c->states; k++) {
    double q = c->flow[k], element = c->base[k] * h;
    if (s->blocked || (s->open[k] && h > 1e60)) {
      out->p[k] = c->crack + q / g, out->b[k] = 1.0;
    } else if (s->open[k]) {
      out->p[k] = (q + g * c->crack) / (q / element + g);
      out->b[k] = g * (element - c->crack) / (q + g * element);
    } else {
      out->p[k] = element, out->b[k] = 0.0;
    }
  }
}

static void solve(const Case* c, double rtol, Cycle* out) {
  SUNContext context;
  check(SUNContext_Create(NULL, &context), "context");
  N_Vector y = N_VNew_Serial(SIZE, context), atol = N_VNew_Serial(SIZE, context);
  SUNMatrix matrix = SUNDenseMatrix(SIZE, SIZE, context);
  SUNLinearSolver linear = SUNLinSol_Dense(y, matrix, context);
  void* solver = CVodeCreate(CV_BDF, context);
  Piece piece = {.c = c};
  double* v = NV_DATA_S(y);
  N_VConst(0.0, y);
  check(CVodeInit(solver, derivatives, 0.0, y), "init");
  check(CVodeSetUserData(solver, &piece), "data");
  check(CVodeSetLinearSolver(solver, linear, matrix), "linear solver");
  check(CVodeSetJacFn(solver, jacobian), "Jacobian");
  check(CVodeSetMaxNumSteps(solver, 5000000), "steps");
  check(CVodeRootInit(solver, ROOTS, kinks), "roots");
  check(CVodeSetNoInactiveRootWarn(solver), "roots");
  for (int i = 0; i < c->cycles; i++) {
    for (int j = 0; j < BANDS; j++) {
      /* the first cycle starts with the given oil, the others with what the change before left and
       * released */
      double released = i == 0 ? 0.0 : c->backFlush * v[KEPT + j] + c->handling[j];
      v[N + j] = i == 0 ? c->start[j] : v[N + j] + released / c->volume;
      v[KEPT + j] = v[INTEGRAL + j] = 0.0;
      out[i].start[j] = v[N + j];
    }
    v[LOAD] = c->wall, v[WEAR] = 0.0;
    integrate(c, rtol, y, atol, solver, &piece);
    out[i].retained = 0.0;
    out[i].opened = 0;
    for (int j = 0; j < BANDS; j++) {
      out[i].end[j] = v[N + j], out[i].kept[j] = v[KEPT + j], out[i].integral[j] = v[INTEGRAL + j];
      out[i].retained += c->mu[j] * v[KEPT + j] / (1.0 - c->fines);
    }
    for (int k = 0; k < c->states; k++) out[i].opened |= piece.open[k];
    out[i].exposure = v[WEAR];
    pressures(&piece, v[LOAD], &out[i]);
  }
  CVodeFree(&solver);
  SUNLinSolFree(linear);
  SUNMatDestroy(matrix);
  N_VDestroy(y), N_VDestroy(atol);
  SUNContext_Free(&context);
}

/* ---------- what it writes ---------- */

static void writeTable(const Case* cases, int count, const char* header, double rtol,
                       const char* note) {
  printf("# Reference solution of the contamination balance; the machines are invented.\n");
  printf(
      "# source: src/test/reference (reference.c, cases.py, README.md with columns and units)\n");
  printf("# tool: SUNDIALS CVODE %d.%d.%d, BDF, dense, restarted at every kink; gcc %s\n",
         SUNDIALS_VERSION_MAJOR, SUNDIALS_VERSION_MINOR, SUNDIALS_VERSION_PATCH, __VERSION__);
  printf("# command: python3 cases.py | ./reference > balance.csv\n");
  printf("# tolerance: rtol %g, atol 1e-12 rtol of each component's scale; %s\n", rtol, note);
  printf("%s", header);
  for (int i = 1; i <= CYCLES; i++) {
    printf(",retained_g_%d", i);
    for (int j = 0; j < BANDS; j++) printf(",passing_%d_%d", j, i);
    for (int j = 0; j < BANDS; j++) printf(",end_%d_per_mL_%d", j, i);
    for (int j = 0; j < BANDS; j++) printf(",retained_%d_%d", j, i);
    printf(",exposure_h_%d", i);
    for (int k = 0; k < STATES; k++) printf(",pressure_%d_kPa_%d", k + 1, i);
    for (int k = 0; k < STATES; k++) printf(",bypass_%d_%d", k + 1, i);
  }
  printf("\n");
  for (const Case* c = cases; c < cases + count; c++) {
    Cycle out[CYCLES];
    solve(c, rtol, out);
    printf("%s", c->text);
    for (int i = 0; i < CYCLES; i++) {
      const Cycle* o = i < c->cycles ? &out[i] : NULL;
      if (!o) {
        for (int x = 0; x < 2 + 3 * BANDS + 2 * STATES; x++) printf(",");
        continue;
      }
      printf(",%.17g", o->retained);
      for (int j = 0; j < BANDS; j++) printf(",%.17g", c->meanFlow * o->integral[j]);
      for (int j = 0; j < BANDS; j++) printf(",%.17g", o->end[j]);
      for (int j = 0; j < BANDS; j++) printf(",%.17g", o->kept[j]);
      printf(",%.17g", o->exposure);
      for (int k = 0; k < STATES; k++) k < c->states ? printf(",%.17g", o->p[k]) : printf(",");
      for (int k = 0; k < STATES; k++) k < c->states ? printf(",%.17g", o->b[k]) : printf(",");
    }
    printf("\n");
  }
}

/* ---------- how far two runs differ ---------- */

enum { RETAINED, PASSING, END, COUNTS, EXPOSURE, PRESSURE, BYPASS, QUANTITIES };
static const char* QUANTITY[] = {"retained_g", "passing",  "end",   "retained",
                                 "exposure_h", "pressure", "bypass"};

typedef struct {
  double worst[QUANTITIES];
  const Case* at[QUANTITIES];
} Difference;

static void widen(Difference* d, int quantity, double a, double b, double scale, const Case* c) {
  double error = a == b ? 0.0 : fabs(a - b) / scale;
  if (!(error <= d->worst[quantity])) d->worst[quantity] = error, d->at[quantity] = c;
}

/* relative; bypass absolute; end counts never finer than 1e-12 of the most the band can hold */
static void compare(Difference* d, const Case* c, const Cycle* a, const Cycle* b) {
  widen(d, RETAINED, a->retained, b->retained, fabs(b->retained), c);
  widen(d, EXPOSURE, a->exposure, b->exposure, fabs(b->exposure), c);
  for (int j = 0; j < BANDS; j++) {
    widen(d, PASSING, a->integral[j], b->integral[j], fabs(b->integral[j]), c);
    widen(d, END, a->end[j], b->end[j], fmax(fabs(b->end[j]), 1e-12 * b->start[j]), c);
    widen(d, COUNTS, a->kept[j], b->kept[j], fabs(b->kept[j]), c);
  }
  for (int k = 0; k < c->states; k++) {
    widen(d, PRESSURE, a->p[k], b->p[k], b->p[k], c);
    widen(d, BYPASS, a->b[k], b->b[k], 1.0, c);
  }
}

static void report(const char* title, const Difference* d) {
  printf("%s\n", title);
  for (int i = 0; i < QUANTITIES; i++) {
    printf("  %-12s %.2e", QUANTITY[i], d->worst[i]);
    if (d->at[i]) printf("  case %d %s", atoi(d->at[i]->text), d->at[i]->tag);
    printf("\n");
  }
}

static void verifyTolerance(const Case* cases, int count, double loose, double tight) {
  Difference d = {0};
  char title[80];
  for (const Case* c = cases; c < cases + count; c++) {
    Cycle a[CYCLES], b[CYCLES];
    solve(c, loose, a), solve(c, tight, b);
    for (int i = 0; i < c->cycles; i++) compare(&d, c, &a[i], &b[i]);
  }
  snprintf(title, sizeof title, "largest difference of rtol %g from rtol %g", loose, tight);
  report(title, &d);
}

/* ---------- checks against what can be derived by hand ---------- */

/* the exact solution while no bypass is open: E is constant and each band decays on its own */
typedef struct {
  const Case* c;
  double steady[BANDS], fall[BANDS] /* 1/h */, start[BANDS];
} Linear;

static double exactN(const Linear* l, int j, double t) {
  if (l->fall[j] * t < 1e-7) {
    const Case* c = l->c;
    double in = c->toTank[j] + c->toReturn[j] * (1.0 - c->filtered * c->field * c->e[j]);
    return l->start[j] +
           (in / c->volume - l->fall[j] * l->start[j]) * t * (1.0 - 0.5 * l->fall[j] * t);
  }
  return l->steady[j] + (l->start[j] - l->steady[j]) * exp(-l->fall[j] * t);
}

static double exactWear(const Linear* l, double t) {
  double y[SIZE];
  for (int j = 0; j < BANDS; j++) y[N + j] = exactN(l, j, t);
  return fmax(l->c->floor, pow(fmax(wearSum(l->c, y), 0.0), l->c->power));
}

/* wear per unit of u = ln(t): the wash-out takes its share of the nodes however short it is */
static double wearPerLog(const Linear* l, double u) { return exactWear(l, exp(u)) * exp(u); }

static double simpson(const Linear* l, double a, double b, double fa, double fm, double fb,
                      double eps, int depth) {
  double m = 0.5 * (a + b), h = b - a;
  double fl = wearPerLog(l, 0.5 * (a + m)), fr = wearPerLog(l, 0.5 * (m + b));
  double whole = h / 6.0 * (fa + 4.0 * fm + fb),
         halves = h / 12.0 * (fa + 4.0 * fl + 2.0 * fm + 4.0 * fr + fb);
  if (depth == 0 || fabs(halves - whole) <= 15.0 * eps) return halves + (halves - whole) / 15.0;
  return simpson(l, a, m, fa, fl, fm, 0.5 * eps, depth - 1) +
         simpson(l, m, b, fm, fr, fb, 0.5 * eps, depth - 1);
}

static void exactCycle(const Case* c, const Cycle* got, Cycle* exact) {
  Linear l = {.c = c};
  double T = c->interval;
  *exact = *got;
  exact->retained = 0.0;
  for (int j = 0; j < BANDS; j++) {
    double e = c->filtered * c->field * c->e[j], caught = (1.0 - c->ep[j]) * e * c->meanFlow;
    double sink =
        c->meanFlow * c->ep[j] + caught + c->offFlow * c->eOff[j] + c->settling[j] * c->volume;
    double in = c->toTank[j] + c->toReturn[j] * (1.0 - e), x;
    l.fall[j] = sink / c->volume, l.start[j] = got->start[j];
    l.steady[j] = sink > 0.0 ? in / sink : 0.0;
    exact->end[j] = exactN(&l, j, T);
    x = l.fall[j] * T;
    if (x < 1e-4) {
      /* series of the integral of start e^-x + in/V (1 - e^-x)/fall, to the fourth power of x */
      double gain = in / c->volume;
      exact->integral[j] = l.start[j] * T * (1 - x / 2 + x * x / 6 - x * x * x / 24) +
                           gain * T * T * (0.5 - x / 6 + x * x / 24 - x * x * x / 120);
    } else {
      exact->integral[j] = l.steady[j] * T + (l.start[j] - l.steady[j]) * -expm1(-x) / l.fall[j];
    }
    exact->kept[j] = c->toReturn[j] * e * T + caught * exact->integral[j];
    exact->retained += c->mu[j] * exact->kept[j] / (1.0 - c->fines);
  }
  double first = T * 1e-14, a = log(first), b = log(T), sum = first * exactWear(&l, 0.0);
  for (int i = 0; i < 64; i++) {
    double u = a + (b - a) * i / 64, v = a + (b - a) * (i + 1) / 64;
    sum += simpson(&l, u, v, wearPerLog(&l, u), wearPerLog(&l, 0.5 * (u + v)), wearPerLog(&l, v),
                   1e-14 * got->exposure, 40);
  }
  exact->exposure = sum;
}

static int failures;

static void expect(const char* what, double worst, double limit) {
  printf("%s %.2e (limit %.0e): %s\n", what, worst, limit, worst <= limit ? "holds" : "FAILS");
  if (!(worst <= limit)) failures++;
}

static void checkMass(const Case* cases, int count, double rtol) {
  double worst = 0.0, load = 0.0, blocked = 0.0;
  int walls = 0;
  for (const Case* c = cases; c < cases + count; c++) {
    Cycle out[CYCLES];
    solve(c, rtol, out);
    for (int i = 0; i < c->cycles; i++) {
      double mass = 0.0;
      for (int j = 0; j < BANDS; j++) {
        double elsewhere =
            c->meanFlow * c->ep[j] + c->offFlow * c->eOff[j] + c->settling[j] * c->volume;
        double in = (c->toTank[j] + c->toReturn[j]) * c->interval + c->volume * out[i].start[j];
        double held = c->volume * out[i].end[j] + out[i].kept[j] + elsewhere * out[i].integral[j];
        if (in > 0.0) worst = fmax(worst, fabs(held - in) / in);
        mass += c->mu[j] * out[i].kept[j] / (1.0 - c->fines);
      }
      /* above an exponent of 2 the wall is reached in finite time, below it only approached */
      if (c->exponent > 2.0 && out[i].b[0] == 1.0) {
        double atWall = c->capacity / (1.0 - pow(c->terminal / c->clean, 1.0 - c->exponent));
        blocked = fmax(blocked, fabs(mass / atWall - 1.0));
        walls++;
      }
      /* the loading that sets the pressure is integrated apart from the counts: both say the same
       * mass */
      for (int k = 0; k < c->states; k++) {
        double m = mass / c->capacity, slope, h = 0.0, p;
        if (c->wall > 0.0 && m > c->wall * (1.0 - 1e-3)) continue;
        h = blocking(c, c->wall > 0.0 ? c->wall - m : m, &slope);
        p = c->base[k] * h;
        if (p > c->crack)
          p = (c->flow[k] + c->conductance * c->crack) / (c->flow[k] / p + c->conductance);
        load = fmax(load, fabs(p - out[i].p[k]) / p);
      }
    }
  }
  expect("mass in = oil + element + pressure filter + offline + settled, relative", worst, 1e-9);
  expect("pressure from the retained counts, relative", load, 1e-8);
  printf("%d cycles end with a blocked element:\n", walls);
  expect("  it holds C/(1 - r^(1 - n)), relative", blocked, 1e-11);
}

static void checkExact(const Case* cases, int count, double rtol) {
  Difference d = {0};
  int cycles = 0;
  for (const Case* c = cases; c < cases + count; c++) {
    Cycle out[CYCLES], exact;
    solve(c, rtol, out);
    for (int i = 0; i < c->cycles; i++) {
      if (out[i].opened) continue;
      exactCycle(c, &out[i], &exact);
      compare(&d, c, &out[i], &exact);
      cycles++;
    }
  }
  printf("%d cycles without bypass against the closed form:\n", cycles);
  report("  largest difference", &d);
  for (int i = RETAINED; i <= EXPOSURE; i++) expect(QUANTITY[i], d.worst[i], 1e-8);
}

/* one duty state, no bypass, nothing but the return filter; E = 0.9 times the band's efficiency */
static Case plain(void) {
  Case c = {.text = "0",
            .volume = 2e5,
            .states = 1,
            .filtered = 1.0,
            .field = 0.9,
            .capacity = 1e6,
            .clean = 10,
            .terminal = 100,
            .exponent = 1,
            .ratedFlow = 6e6,
            .ratedViscosity = 30,
            .crack = 200,
            .full = 300,
            .interval = 200,
            .cycles = 1,
            .reference = 1,
            .power = 1,
            .floor = 1e-9};
  c.share[0] = 1, c.flow[0] = c.meanFlow = 6e6, c.viscosity[0] = 30, c.base[0] = 10;
  c.conductance = c.ratedFlow / 100, c.rate = log(10.0), c.opens[0] = loadingAt(&c, 20.0);
  for (int j = 0; j < BANDS; j++) {
    c.e[j] = 0.1 + 0.15 * j, c.toTank[j] = 1e7 / (j + 1), c.toReturn[j] = 3e7 / (j + 1);
    c.mu[j] = 1e-12, c.weight[j] = 1;
  }
  return c;
}

static void checkLaws(double rtol) {
  Case c = plain(), pulsed = plain();
  Cycle without[CYCLES], with[CYCLES];
  double steady = 0.0, pulse = 0.0, released = 1e9, longRun = 0.0;
  solve(&c, rtol, without);
  for (int j = 0; j < BANDS; j++) pulsed.start[j] = released / c.volume;
  solve(&pulsed, rtol, with);
  for (int j = 0; j < BANDS; j++) {
    double e = 0.9 * c.e[j], n = (c.toTank[j] + c.toReturn[j] * (1 - e)) / (c.meanFlow * e);
    double passed = c.meanFlow * (with[0].integral[j] - without[0].integral[j]);
    steady = fmax(steady, fabs(without[0].end[j] / n - 1));
    pulse = fmax(pulse, fabs(passed / (released / e) - 1));
  }
  expect("steady state (R_T + R_R (1 - E))/(Q E), relative", steady, 1e-9);
  expect("pulse: passing S/E whatever the volume and flow, relative", pulse, 1e-8);

  /* back-flush: passing per hour in the long run, each cycle holding its own wash-out */
  Case b = plain();
  b.backFlush = 0.2, b.cycles = 4;
  b.interval = 2000;
  Cycle many[CYCLES], *last = &many[CYCLES - 1];
  double phi = b.backFlush;
  /* start from the limit of the cycles: the oil at its steady state plus the release phi (R_T+R_R)
   * T/(1-phi) */
  for (int j = 0; j < BANDS; j++) {
    double e = 0.9 * b.e[j], in = b.toTank[j] + b.toReturn[j];
    b.start[j] = (b.toTank[j] + b.toReturn[j] * (1 - e)) / (b.meanFlow * e);
    b.start[j] += phi * in * b.interval / (1 - phi) / b.volume;
  }
  solve(&b, rtol, many);
  for (int j = 0; j < BANDS; j++) {
    double e = 0.9 * b.e[j], in = b.toTank[j] + b.toReturn[j];
    double law = (b.toTank[j] + b.toReturn[j] * (1 - e) + phi * in / (1 - phi)) / e;
    longRun = fmax(longRun, fabs(b.meanFlow * last->integral[j] / b.interval / law - 1));
  }
  expect("long-run back-flush: passing per hour, relative", longRun, 1e-8);
}

/* ---------- time ---------- */

static int byValue(const void* a, const void* b) {
  double x = *(const double*)a, y = *(const double*)b;
  return (x > y) - (x < y);
}

static double seconds(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return now.tv_sec + 1e-9 * now.tv_nsec;
}

static void writeTimes(const Case* cases, int count, double rtol, int repeats) {
  double *medians = malloc(count * sizeof *medians), *each = malloc(repeats * sizeof *each),
         sum = 0.0;
  printf("case,tag,cycles,median_us\n");
  for (int i = 0; i < count; i++) {
    Cycle out[CYCLES];
    for (int r = 0; r < repeats; r++) {
      double from = seconds();
      solve(&cases[i], rtol, out);
      each[r] = seconds() - from;
    }
    qsort(each, repeats, sizeof *each, byValue);
    medians[i] = each[repeats / 2];
    sum += medians[i];
    printf("%d,%s,%d,%.1f\n", atoi(cases[i].text), cases[i].tag, cases[i].cycles, 1e6 * medians[i]);
  }
  qsort(medians, count, sizeof *medians, byValue);
  printf("# rtol %g, %d repeats: median of cases %.1f us, sum of cases %.1f us\n", rtol, repeats,
         1e6 * medians[count / 2], 1e6 * sum);
  free(medians), free(each);
}

int main(int argc, char** argv) {
  static Case cases[MAX_CASES];
  static char header[LINE];
  const char* mode = argc > 1 ? argv[1] : "";
  int count = readCases(cases, header);
  if (!strcmp(mode, "--time")) {
    writeTimes(cases, count, 1e-10, argc > 2 ? atoi(argv[2]) : 5);
  } else if (!strcmp(mode, "--check")) {
    checkLaws(1e-12);
    checkMass(cases, count, 1e-12);
    checkExact(cases, count, 1e-12);
    return failures != 0;
  } else if (!strcmp(mode, "--verify")) {
    verifyTolerance(cases, count, 1e-10, 1e-12);
    verifyTolerance(cases, count, 1e-12, 1e-13);
  } else if (!*mode) {
    writeTable(cases, count, header, 1e-12, "within 1e-9 relative, see README.md");
  } else {
    fail("unknown mode: --time [repeats], --check or --verify", mode);
  }
  return 0;
}
