package siltwright.model;

import java.util.List;
import java.util.Optional;

/**
 * One hydraulic machine, as every analysis and view reads it.
 *
 * @param id identifier, unique in the fleet
 * @param name name for people
 * @param machineClass neutral class, such as a size of excavator
 * @param site id of the site where it works
 * @param reservoir tank
 * @param fluid oil
 * @param duty duty states; shares add to 1
 * @param filteredShare share of the return flow that passes the return filter
 * @param returnFilter return filter
 * @param pressureFilter filter behind the pump, where there is one
 * @param offlineFilter filter in a loop of its own, where there is one
 * @param ingress dirt that comes in
 * @param settlingPerH settling rate λ of each band, 1/h
 * @param oilChange exchange of the oil, where it is to be counted
 * @param components parts that wear
 * @param procedures ways to change the element that this housing allows
 * @param costs cost rates
 * @param limits limits on the interval
 * @param today interval and procedure in use
 * @param sampling oil samples, where they are taken
 * @param alternatives what could be fitted instead
 * @param startAtPerMl band counts in the tank when a simulation begins, 1/mL
 * @param uncertainty how well the numbers above are known
 */
public record Machine(
    String id,
    String name,
    String machineClass,
    String site,
    Reservoir reservoir,
    Fluid fluid,
    List<DutyState> duty,
    double filteredShare,
    ReturnFilter returnFilter,
    Optional<PressureFilter> pressureFilter,
    Optional<OfflineFilter> offlineFilter,
    Ingress ingress,
    Bands settlingPerH,
    Optional<OilChange> oilChange,
    List<Component> components,
    List<ChangeProcedure> procedures,
    Costs costs,
    Limits limits,
    Today today,
    Optional<Sampling> sampling,
    Alternatives alternatives,
    Bands startAtPerMl,
    List<Uncertainty> uncertainty) {
  public Machine {
    duty = List.copyOf(duty);
    components = List.copyOf(components);
    procedures = List.copyOf(procedures);
    uncertainty = List.copyOf(uncertainty);
  }

  /**
   * Returns what a change costs without the element: seals, work, standstill, oil, and what terms
   * that its file names add.
   *
   * @param procedure one of its procedures
   * @return money for one change
   * @throws IllegalStateException if the file names terms and was read without them
   */
  public double serviceMoney(ChangeProcedure procedure) {
    return Costs.serviceMoney(this, procedure);
  }

  /** Returns the procedure with an id. */
  public Optional<ChangeProcedure> procedure(String procedureId) {
    for (ChangeProcedure p : procedures) {
      if (p.id().equals(procedureId)) {
        return Optional.of(p);
      }
    }
    return Optional.empty();
  }

  /**
   * Returns the place in {@link #duty} of the state in which the indicator is read.
   *
   * @return index, or -1 if there is no such state
   */
  public int indicatorStateIndex() {
    return duty.stream().map(DutyState::id).toList().indexOf(returnFilter.indicatorState());
  }

  /** Returns this machine with another return filter. */
  public Machine withReturnFilter(ReturnFilter other) {
    return with(duty, other, offlineFilter, ingress, components, procedures, costs, limits);
  }

  /** Returns this machine with another element in its return filter. */
  public Machine withElement(Element other) {
    return withReturnFilter(returnFilter.with(other, returnFilter.fieldEfficiency()));
  }

  /** Returns this machine with another field efficiency factor of the return filter. */
  public Machine withFieldEfficiency(double other) {
    return withReturnFilter(returnFilter.with(returnFilter.element(), other));
  }

  /** Returns this machine with another offline filter, or with none. */
  public Machine withOfflineFilter(Optional<OfflineFilter> other) {
    return with(duty, returnFilter, other, ingress, components, procedures, costs, limits);
  }

  /** Returns this machine with other ingress. */
  public Machine withIngress(Ingress other) {
    return with(duty, returnFilter, offlineFilter, other, components, procedures, costs, limits);
  }

  /** Returns this machine with other components. */
  public Machine withComponents(List<Component> other) {
    return with(duty, returnFilter, offlineFilter, ingress, other, procedures, costs, limits);
  }

  /** Returns this machine with other change procedures. */
  public Machine withProcedures(List<ChangeProcedure> other) {
    return with(duty, returnFilter, offlineFilter, ingress, components, other, costs, limits);
  }

  /** Returns this machine with other cost rates. */
  public Machine withCosts(Costs other) {
    return with(duty, returnFilter, offlineFilter, ingress, components, procedures, other, limits);
  }

  /** Returns this machine with other limits. */
  public Machine withLimits(Limits other) {
    return with(duty, returnFilter, offlineFilter, ingress, components, procedures, costs, other);
  }

  /** Returns this machine with other duty states. */
  public Machine withDuty(List<DutyState> other) {
    return with(other, returnFilter, offlineFilter, ingress, components, procedures, costs, limits);
  }

  private Machine with(
      List<DutyState> newDuty,
      ReturnFilter newReturnFilter,
      Optional<OfflineFilter> newOfflineFilter,
      Ingress newIngress,
      List<Component> newComponents,
      List<ChangeProcedure> newProcedures,
      Costs newCosts,
      Limits newLimits) {
    return new Machine(
        id,
        name,
        machineClass,
        site,
        reservoir,
        fluid,
        newDuty,
        filteredShare,
        newReturnFilter,
        pressureFilter,
        newOfflineFilter,
        newIngress,
        settlingPerH,
        oilChange,
        newComponents,
        newProcedures,
        newCosts,
        newLimits,
        today,
        sampling,
        alternatives,
        startAtPerMl,
        uncertainty);
  }
}
