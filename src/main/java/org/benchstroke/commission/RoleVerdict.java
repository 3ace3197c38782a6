package org.benchstroke.commission;

import org.benchstroke.io.instrument.Role;

/**
 * Whether a role of a bench answers soundly.
 *
 * @param instrument the instrument that plays it
 * @param role the role
 * @param ok whether it does
 * @param words what was seen and, where it is not ok, what to do
 */
public record RoleVerdict(String instrument, Role role, boolean ok, String words) {}
