#include "rule/fork.h"

#include <stdlib.h>

static ts_node *room_for(ts_sandbox *box) {
  size_t need = box->saved_count + ts_node_count(box->graph) - ts_graph_kept(box->graph);
  /* There is a place even where nothing has to be kept. */
  if (need >= box->saved_capacity) TS_RESERVE(box->saved, 2 * (need + 1), box->saved_capacity);
  return box->saved + box->saved_count;
}

void ts_fork_keep(ts_sandbox *box, bool imposed) {
  if (!box->replaying) return;
  TS_GROW(box->forks, box->fork_count, box->fork_capacity);
  ts_fork *fork = &box->forks[box->fork_count++];
  *fork = (ts_fork){.step = box->step_count, .reads = box->read_count, .said = box->said_count, .from = box->saved_count, .imposed = imposed};
  fork->point = ts_graph_save(box->graph, room_for(box));
  box->saved_count += fork->point.count - ts_graph_kept(box->graph);
}

void ts_forks_drop(ts_sandbox *box) { box->fork_count = box->saved_count = 0; }

ts_fork *ts_fork_last(ts_sandbox *box) {
  while (box->fork_count && box->forks[box->fork_count - 1].step >= box->step_count)
    box->saved_count = box->forks[--box->fork_count].from;
  ts_fork *last = box->fork_count ? &box->forks[box->fork_count - 1] : NULL;
  return last && last->step + 1 == box->step_count ? last : NULL;
}

bool ts_fork_take(ts_sandbox *box, const ts_fork *fork) {
  const ts_step *step = &box->steps[fork->step];
  box->read_count = fork->reads;
  box->said_count = fork->said;
  ts_graph_go_back(box->graph, &fork->point, box->saved + fork->from);
  if (fork->imposed || step->kind != TS_COMPARE) return true;
  return ts_impose(box->graph, step->a, step->b, step->or_equal, step->taken == 1);
}
