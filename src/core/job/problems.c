/* SPDX-License-Identifier: MIT */
/* The job's list of problems: the first ones with their place, the rest counted. */
#include "core/job/job.h"

bool ds_job_complain(ds_job *const job, ds_arena *const arena, const ds_json *const value,
                     int32_t *const owner, const ds_problem_code code, const ds_str a, const ds_str b)
{
    if (owner && *owner < 0) {
        *owner = (int32_t)job->problems.len;
    }
    if (job->problems.len == DS_JOB_PROBLEMS) {
        job->problems_unlisted++;
        return true;
    }
    const ds_json *const at = value ? value : job->tree;
    const ds_problem problem = {.code = code, .where = ds_json_where(at, job->source, arena), .a = a, .b = b};
    return problem.where.pointer.at && ds_problems_add(&job->problems, arena, &problem);
}
