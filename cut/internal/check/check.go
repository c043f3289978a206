package check
type Fault string
