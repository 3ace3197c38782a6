/* What a machine makes late by itself: 64 threads that do nothing but sleep until they are due, 20 times
   a second, as the stations of the benchmark do. Prints how late they woke up.
   sleeper POLLS */
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define STATIONS 64
#define PERIOD 50000000LL

static long polls;
static long long begin;
static double *late;

static long long now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec * 1000000000LL + t.tv_nsec;
}

static void *station(void *which) {
  long number = (long)which;
  for (long i = 0; i < polls; i++) {
    long long due = begin + number * PERIOD / STATIONS + i * PERIOD;
    struct timespec t = {due / 1000000000LL, due % 1000000000LL};
    clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &t, NULL);
    late[number * polls + i] = (now() - due) / 1e6;
  }
  return NULL;
}

static int compare(const void *a, const void *b) {
  double x = *(const double *)a;
  double y = *(const double *)b;
  return x < y ? -1 : x > y;
}

int main(int argc, char **argv) {
  polls = argc == 2 ? atol(argv[1]) : 0;
  if (polls < 1) {
    return 1;
  }
  long all = STATIONS * polls;
  pthread_t threads[STATIONS];
  late = malloc(all * sizeof *late);
  begin = now() + 100000000LL;
  for (long i = 0; i < STATIONS; i++) {
    pthread_create(&threads[i], NULL, station, (void *)i);
  }
  for (long i = 0; i < STATIONS; i++) {
    pthread_join(threads[i], NULL);
  }
  qsort(late, all, sizeof *late, compare);
  printf("ready median %.3f ms | 99 %% %.3f ms | 99.9 %% %.3f ms | longest %.3f ms\n", late[all / 2],
         late[all * 99 / 100], late[all * 999 / 1000], late[all - 1]);
  return 0;
}
